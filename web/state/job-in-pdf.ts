import { attachedName } from '../../src/job/record-file.ts';

/** The largest text that can be a job with what was measured on it. */
const largest_bytes = 2_000_000;

/** Every PDF begins so (ISO 32000-1, 7.5.2). */
export const isPdf = (bytes: Uint8Array): boolean => String.fromCharCode(...bytes.subarray(0, 5)) === '%PDF-';

/** Text of bytes one character for each, so that places in it are places in the file. */
const plain = (bytes: Uint8Array): string => new TextDecoder('latin1').decode(bytes);

/** The bytes of a stream object and whether they are packed; undefined where the file has no such object. */
function streamOf(bytes: Uint8Array, text: string, number: string) {
  const at = text.lastIndexOf(`\n${number} 0 obj\n`);
  const begin = text.indexOf('stream\n', at);
  const head = text.slice(at, begin);
  const length = /\/Length (\d+)\n/.exec(head)?.[1];
  if (at < 0 || begin < 0 || length === undefined || !head.includes('/EmbeddedFile')) return undefined;
  const from = begin + 'stream\n'.length;
  return { content: bytes.slice(from, from + Number(length)), isPacked: head.includes('/FlateDecode') };
}

/** Bytes unpacked as far as a job may be long; undefined where they are none that were packed, or more. */
async function unpacked(content: Uint8Array<ArrayBuffer>): Promise<Uint8Array | undefined> {
  const reader = new Blob([content]).stream().pipeThrough(new DecompressionStream('deflate')).getReader();
  const parts: Uint8Array[] = [];
  let length = 0;
  try {
    for (let next = await reader.read(); !next.done; next = await reader.read()) {
      parts.push(next.value);
      length += next.value.length;
      if (length > largest_bytes) return undefined;
    }
  } catch {
    return undefined;
  }
  return new Uint8Array(await new Blob(parts as BlobPart[]).arrayBuffer());
}

/**
 * The text of the job that a PDF of ours carries; undefined for any other PDF, and for one that another program wrote
 * anew. It reads only what our own papers look like (ISO 32000-1, 7.11.4: files in a PDF): the name of the file in plain
 * letters, then its stream. Check: `tests/web/job-in-pdf.test.ts`.
 */
export async function jobInPdf(bytes: Uint8Array<ArrayBuffer>): Promise<string | undefined> {
  const text = plain(bytes);
  const named = text.lastIndexOf(`/F (${attachedName})`);
  const number = named < 0 ? undefined : /\/EF <<\s*\/F (\d+) 0 R/.exec(text.slice(named, named + 400))?.[1];
  const stream = number === undefined ? undefined : streamOf(bytes, text, number);
  if (!stream) return undefined;
  const content = stream.isPacked ? await unpacked(stream.content) : stream.content;
  return content && new TextDecoder().decode(content);
}
