import type { SlotsRead } from '../server/contract/papers.ts';
import type { JudgedReadings, WrittenRow } from '../src/answer/asked.ts';
import type { Job } from '../src/job/job.ts';
import type { CodeRange } from '../src/job/printed-characters.ts';
import { asJson, ask, posted, type Reply } from './api.ts';

/** A file of the service with the name the service gives it. */
export interface Paper {
  readonly name: string;
  readonly content: Blob;
}

export type PaperSize = 'A4' | 'A3';

async function asPaper(response: Response): Promise<Paper> {
  const disposition = response.headers.get('content-disposition') ?? '';
  const name = /filename="([^"]+)"/.exec(disposition)?.[1] ?? 'paper';
  return { name, content: await response.blob() };
}

export const askPack = (job: Job, size: PaperSize): Promise<Reply<Paper>> =>
  ask(`/api/papers/pack.pdf?paper=${size}`, posted(job), asPaper);

/** Two labels for each cable, to be cut out or for a label printer. */
export const askLabels = (job: Job, kind: 'pdf' | 'csv'): Promise<Reply<Paper>> =>
  ask(`/api/papers/labels.${kind}`, posted(job), asPaper);

const revisionPath = (id: string, revision: string): string =>
  `/api/jobs/${encodeURIComponent(id)}/revisions/${encodeURIComponent(revision)}`;

/** The pack of an issued revision, from what was frozen with it; the boxes of its test sheet empty, or as measured. */
export const askIssuedPack = (
  id: string,
  revision: string,
  { size, boxes }: { readonly size: PaperSize; readonly boxes: 'empty' | 'measured' },
): Promise<Reply<Paper>> =>
  ask(`${revisionPath(id, revision)}/pack.pdf?paper=${size}&boxes=${boxes}`, {}, asPaper);

/** An issued revision as one page for the site, to be taken along without a network. */
export const askHandOverPage = (id: string, revision: string): Promise<Reply<Paper>> =>
  ask(`${revisionPath(id, revision)}/hand-over.html`, {}, asPaper);

/** The test sheet of an issued revision with what was measured. */
export const askMeasuredSheet = (id: string, revision: string): Promise<Reply<Paper>> =>
  ask(`${revisionPath(id, revision)}/test-sheet.csv`, {}, asPaper);

export const askDrawing = (
  job: Job,
  drawing: 'elevation' | 'section',
  kind: 'svg' | 'dxf',
): Promise<Reply<Paper>> => ask(`/api/papers/${drawing}.${kind}`, posted(job), asPaper);

/** Which characters the papers can print. */
export const askPrintedCharacters = () =>
  ask('/api/papers/characters', {}, asJson<{ readonly ranges: readonly CodeRange[] }>);

/** How a DXF is to be read; a layer left out asks which layers there are. */
export interface DxfReading {
  readonly layer?: string | undefined;
  readonly unit?: string | undefined;
  readonly cornerX_mm: number;
  readonly cornerY_mm: number;
}

const plain = (text: string): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'text/plain' },
  body: text,
});

export function askSlotsOfDxf(text: string, reading: DxfReading): Promise<Reply<SlotsRead>> {
  const given = Object.entries(reading).filter(([, value]) => value !== undefined && value !== '');
  const query = new URLSearchParams(given.map(([name, value]) => [name, String(value)]));
  return ask(`/api/drawing-in/dxf?${query}`, plain(text), asJson<SlotsRead>);
}

export const askSlotsOfTable = (text: string): Promise<Reply<SlotsRead>> =>
  ask('/api/drawing-in/table', plain(text), asJson<SlotsRead>);

/** What the readings of a test sheet say about the installation. */
export function askVerdict(
  job: Job,
  readings: readonly WrittenRow[],
  signal: AbortSignal,
): Promise<Reply<JudgedReadings>> {
  return ask('/api/readings', { ...posted({ job, readings }), signal }, asJson<JudgedReadings>);
}
