import { judgeReadings } from '../../src/index.ts';
import type { OnSiteData, Verdict } from './data.ts';
import { showPage } from './view.ts';

function verdictOf(message: Parameters<typeof judgeReadings>): Verdict {
  const judgement = judgeReadings(...message);
  if (!judgement.ok)
    return { sentence: judgement.issues.map(({ sentence }) => sentence).join(' '), suspects: [] };
  const { sentence, suspects } = judgement.value;
  const about = ({ name, ohm, posterior }: (typeof suspects)[number]): string =>
    `${name}${ohm === null ? '' : `, about ${ohm.toFixed(2)} Ω`} (${Math.round(100 * posterior)} %)`;
  return { sentence, suspects: suspects.filter(({ name }) => name !== '').map(about) };
}

/** The same script twice: on the page, and in a thread of its own where readings are judged while the page goes on. */
if (typeof document === 'undefined') {
  self.onmessage = ({ data }: MessageEvent<{ id: number; asked: Parameters<typeof judgeReadings> }>) =>
    self.postMessage({ id: data.id, verdict: verdictOf(data.asked) });
} else {
  const text = (id: string): string => document.getElementById(id)?.textContent ?? '';
  showPage(JSON.parse(text('data')) as OnSiteData, text('code'), verdictOf);
}
