import { inflateSync } from 'node:zlib';

interface PdfObject {
  readonly number: string;
  readonly head: string;
  readonly stream: string | undefined;
}

function readStream(file: Buffer, head: string, start: number): string | undefined {
  const length = Number(/\/Length (\d+)/.exec(head)?.[1]);
  if (!Number.isFinite(length)) return undefined;
  const bytes = file.subarray(start, start + length);
  if (!head.includes('/FlateDecode')) return bytes.toString('latin1');
  return inflateSync(bytes).toString('latin1');
}

/** Every numbered object of a PDF as the browser writes it: no object streams, lengths written out. */
function objectsOf(file: Buffer): PdfObject[] {
  const text = file.toString('latin1');
  return [...text.matchAll(/(?:^|\n)(\d+) 0 obj\s*([\s\S]*?)(stream\r?\n|endobj)/g)].map((match) => {
    const [whole, number, head, end] = match as unknown as [string, string, string, string];
    const start = match.index + whole.length;
    return { number, head, stream: end === 'endobj' ? undefined : readStream(file, head, start) };
  });
}

/** Code to text of one font, from its ToUnicode map. */
function readMap(cmap: string): ReadonlyMap<number, string> {
  const letters = (hex: string): string => Buffer.from(hex, 'hex').swap16().toString('utf16le');
  const map = new Map<number, string>();
  for (const [, block] of cmap.matchAll(/beginbfchar([\s\S]*?)endbfchar/g)) {
    for (const [, code, hex] of block!.matchAll(/<(\w+)>\s*<(\w+)>/g))
      map.set(Number.parseInt(code!, 16), letters(hex!));
  }
  for (const [, block] of cmap.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, low, high, hex] of block!.matchAll(/<(\w+)>\s*<(\w+)>\s*<(\w+)>/g)) {
      const first = Number.parseInt(low!, 16);
      const base = Number.parseInt(hex!, 16);
      for (let code = first; code <= Number.parseInt(high!, 16); code++) {
        map.set(code, String.fromCodePoint(base + code - first));
      }
    }
  }
  return map;
}

function fontMaps(objects: readonly PdfObject[]): ReadonlyMap<string, ReadonlyMap<number, string>> {
  const byNumber = new Map(objects.map((object) => [object.number, object]));
  const fonts = objects.flatMap((object) => [...object.head.matchAll(/\/(F\d+) (\d+) 0 R/g)]);
  return new Map(
    fonts.map(([, name, number]) => {
      const map = /\/ToUnicode (\d+) 0 R/.exec(byNumber.get(number!)?.head ?? '')?.[1];
      return [name!, readMap(byNumber.get(map ?? '')?.stream ?? '')];
    }),
  );
}

/** The words of a PDF printed by the browser, block after block, without the blanks between them. */
export function pdfText(file: Buffer): string {
  const objects = objectsOf(file);
  const fonts = fontMaps(objects);
  const pages = objects.flatMap(({ stream }) => (stream?.includes(' Tf') ? [stream] : []));
  let text = '';
  for (const page of pages) {
    let font: ReadonlyMap<number, string> | undefined;
    for (const [, name, codes] of page.matchAll(/\/(F\d+) [\d.]+ Tf|<([\da-fA-F]+)>/g)) {
      if (name) font = fonts.get(name);
      else if (codes)
        text += [...codes.matchAll(/.{4}/g)]
          .map(([code]) => font?.get(Number.parseInt(code, 16)) ?? '')
          .join('');
    }
  }
  return text.normalize('NFKC').replaceAll(/\s+/g, '');
}
