import { packPdf, packSheets } from '../../server/papers/pack.ts';
import { demoJobs, sizeJob } from '../../src/index.ts';

function median(times: readonly number[]): string {
  const sorted = times.toSorted((a, b) => a - b);
  const all = times.map((time) => time.toFixed(0)).join(', ');
  return `${sorted[Math.floor(sorted.length / 2)]!.toFixed(0)} ms (of ${all})`;
}

/** Prints how long the pack of the sixty-slot demo takes, medians: sizing, layout, PDF from a sized job. */
export async function benchPapers(): Promise<void> {
  const { job } = demoJobs[2]!;
  const times = {
    sizing: [] as number[],
    layout: [] as number[],
    pdf: [] as number[],
    whole: [] as number[],
  };
  for (let round = 0; round < 9; round++) {
    const start = performance.now();
    const outcome = sizeJob(job);
    if (!outcome.ok) throw new Error('the sixty-slot demo was refused');
    const sized = performance.now();
    const input = {
      job,
      sizing: outcome.value,
      format: 'A4',
      issued: null,
      revisions: [],
      before: null,
    } as const;
    const sheets = packSheets(input);
    const laidOut = performance.now();
    const pdf = await packPdf(input);
    const done = performance.now();
    times.sizing.push(sized - start);
    times.layout.push(laidOut - sized);
    times.pdf.push(done - laidOut);
    times.whole.push(sized - start + (done - laidOut));
    if (round === 8) console.log(`pack of 60 slots, A4: ${sheets.length} sheets, ${pdf.length} bytes`);
  }
  console.log(`  sizing, quick        ${median(times.sizing)}`);
  console.log(`  layout alone         ${median(times.layout)}`);
  console.log(`  layout and PDF       ${median(times.pdf)}`);
  console.log(`  sizing and PDF       ${median(times.whole)}`);
}
