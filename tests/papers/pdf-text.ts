import { inflateSync } from 'node:zlib';

/** A PDF with its streams unpacked, so that its texts can be read. */
export function unpacked(pdf: Buffer): Buffer {
  const parts: Buffer[] = [];
  let from = 0;
  for (let at = pdf.indexOf('\nstream\n'); at >= 0; at = pdf.indexOf('\nstream\n', from)) {
    const start = at + '\nstream\n'.length;
    const end = pdf.indexOf('\nendstream', start);
    const isPacked = pdf.subarray(pdf.lastIndexOf(' obj', at), at).includes('/FlateDecode');
    parts.push(
      pdf.subarray(from, start),
      isPacked ? inflateSync(pdf.subarray(start, end)) : pdf.subarray(start, end),
    );
    from = end;
  }
  return Buffer.concat([...parts, pdf.subarray(from)]);
}

/** The objects of an uncompressed PDF by their numbers. */
export const pdfObjects = (pdf: Buffer): Map<number, string> => objectsOf(pdf.toString('latin1'));

/** What is drawn on each page of an uncompressed PDF. */
export function contentsOf(pdf: Buffer): string[] {
  const objects = pdfObjects(pdf);
  const pages = [...objects.values()].filter((body) => /\/Type \/Page\b(?!s)/.test(body));
  return pages.map((page) => objects.get(reference(page, 'Contents'))!);
}

/** The pages of an uncompressed PDF as the texts on them, in the order of drawing. A reader of its own. */
export function pdfTexts(pdf: Buffer): string[][] {
  const objects = objectsOf(pdf.toString('latin1'));
  const pages = [...objects.values()].filter((body) => /\/Type \/Page\b(?!s)/.test(body));
  return pages.map((page) => {
    const content = objects.get(reference(page, 'Contents'))!;
    const fonts = fontsOf(objects.get(reference(page, 'Resources'))!, objects);
    return textsOf(content, fonts);
  });
}

function objectsOf(text: string): Map<number, string> {
  const found = [...text.matchAll(/^(\d+) 0 obj\n([\s\S]*?)\nendobj$/gm)];
  return new Map(found.map(([, number, body]) => [Number(number), body!]));
}

const reference = (body: string, key: string): number =>
  Number(new RegExp(`/${key} (\\d+) 0 R`).exec(body)![1]);

type Font = ReadonlyMap<string, string>;

function fontsOf(resources: string, objects: ReadonlyMap<number, string>): Map<string, Font> {
  const named = [...resources.matchAll(/\/(F\d+) (\d+) 0 R/g)];
  return new Map(
    named.map(([, name, number]) => {
      const unicode = objects.get(reference(objects.get(Number(number))!, 'ToUnicode'))!;
      return [name!, fontOf(unicode)];
    }),
  );
}

const characters = (hex: string): string =>
  hex.replace(/[\da-f]{4}/gi, (code) => String.fromCharCode(Number.parseInt(code, 16)));

/** Character map: ranges whose targets are listed one by one, as the writer makes them. */
function fontOf(unicode: string): Font {
  const font = new Map<string, string>();
  for (const [, first, targets] of unicode.matchAll(/<(\w{4})> <\w{4}> \[([^\]]*)\]/g)) {
    const start = Number.parseInt(first!, 16);
    for (const [i, [, hex]] of [...targets!.matchAll(/<([^>]*)>/g)].entries())
      font.set((start + i).toString(16).padStart(4, '0'), characters(hex!.replace(/\s/g, '')));
  }
  return font;
}

function textsOf(content: string, fonts: ReadonlyMap<string, Font>): string[] {
  let font: Font | undefined;
  return [...content.matchAll(/\/(F\d+) [\d.]+ Tf|\[(.*)\] TJ/g)].flatMap(([, name, shown]) => {
    if (name !== undefined) {
      font = fonts.get(name);
      return [];
    }
    const glyphs = [...shown!.matchAll(/<([\da-f]*)>/g)].flatMap(([, hex]) => hex!.match(/.{4}/g) ?? []);
    return [glyphs.map((glyph) => font!.get(glyph)!).join('')];
  });
}
