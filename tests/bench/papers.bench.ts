import { packPdf, packSheets } from '../../server/papers/pack.ts';
import { demoJobs, sizeJob } from '../../src/index.ts';

function least(times: readonly number[]): string {
  return `${Math.min(...times).toFixed(0)} ms (of ${times.map((time) => time.toFixed(0)).join(', ')})`;
}

/** Prints how long the pack of the sixty-slot demo takes: sizing, layout, PDF. */
export async function benchPapers(): Promise<void> {
  const { job } = demoJobs[2]!;
  const times = {
    sizing: [] as number[],
    layout: [] as number[],
    pdf: [] as number[],
    whole: [] as number[],
  };
  for (let round = 0; round < 5; round++) {
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
    if (round === 4) console.log(`pack of 60 slots, A4: ${sheets.length} sheets, ${pdf.length} bytes`);
  }
  console.log(`  sizing, quick        ${least(times.sizing)}`);
  console.log(`  layout alone         ${least(times.layout)}`);
  console.log(`  layout and PDF       ${least(times.pdf)}`);
  console.log(`  sizing and PDF       ${least(times.whole)}`);
}
