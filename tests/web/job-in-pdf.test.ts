import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { packPdf } from '../../server/papers/pack.ts';
import { demoJobs, sizeJob } from '../../src/index.ts';
import { isPdf, jobInPdf } from '../../web/state/job-in-pdf.ts';
import { readRecord } from '../../web/state/record-file.ts';

const bytesOf = (buffer: Buffer): Uint8Array<ArrayBuffer> => new Uint8Array(buffer);

const { job } = demoJobs[0]!;
const sized = sizeJob(job);
if (!sized.ok) throw new Error('the first demo was refused');
const input = { job, sizing: sized.value, format: 'A4', issued: null, revisions: [], before: null } as const;
const issued = { jobId: 'window-seat', id: 'a', revision: 'A', issued: '2026-11-30T10:00:00.000Z' };

describe('the job in a PDF', () => {
  it.each([true, false])('is the one the papers were made from, packed: %s', async (compress) => {
    const pdf = bytesOf(await packPdf(input, compress));
    expect(isPdf(pdf)).toBe(true);
    expect(JSON.parse((await jobInPdf(pdf))!)).toEqual(job);
  });

  it('is, of an issued revision, a record that names it, without readings', async () => {
    const pdf = await packPdf({ ...input, issued: { date: '2026-11-30', as: issued } });
    expect(readRecord((await jobInPdf(bytesOf(pdf)))!)).toEqual({
      format: { name: 'slotwatt-record', version: 1 },
      ...{ job, revision: issued, readings: [], typed: {} },
    });
  });

  const without = (text: string) => bytesOf(Buffer.from(text, 'latin1'));
  const carrying = (stream: Buffer, head = '/FlateDecode') =>
    Buffer.concat([
      Buffer.from(
        `%PDF-1.7\n1 0 obj\n<<\n/F (slotwatt-job.json)\n/EF <<\n/F 2 0 R\n>>\n>>\nendobj\n2 0 obj\n<<\n/Type /EmbeddedFile\n/Filter ${head}\n/Length ${stream.length}\n>>\nstream\n`,
      ),
      stream,
      Buffer.from('\nendstream\nendobj\n'),
    ]);

  it('is not there in any other PDF', async () => {
    expect(await jobInPdf(without('%PDF-1.4\n1 0 obj\n<<>>\nendobj\n%%EOF'))).toBeUndefined();
    expect(await jobInPdf(without('%PDF-1.7\n/F (slotwatt-job.json)\n/EF <<\n/F 9 0 R'))).toBeUndefined();
    expect(isPdf(without('{"format":2}'))).toBe(false);
  });

  it('is not taken from a damaged stream, or from one that swells beyond what a job can be', async () => {
    expect(await jobInPdf(bytesOf(carrying(deflateSync('{}'))))).toBe('{}');
    expect(await jobInPdf(bytesOf(carrying(Buffer.from('no deflated bytes'))))).toBeUndefined();
    const swelling = deflateSync(Buffer.alloc(2_000_001, 0x20));
    expect(swelling.length).toBeLessThan(10_000);
    expect(await jobInPdf(bytesOf(carrying(swelling)))).toBeUndefined();
  });
});
