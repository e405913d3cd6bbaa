import { shareOut } from '../../src/drivers/allocation.ts';
import { carefulSharing, quickSharing } from '../../src/drivers/share-effort.ts';
import { sharingWall } from './sharing-walls.ts';

/** Walls: how many runs, their watts from least to most, zones, and whether drivers have prices. */
const walls = [
  ['nearly alike', 60, 14.6, 15.4, 1, true],
  ['unlike', 60, 5, 45, 1, true],
  ['unlike, without prices', 60, 5, 45, 1, false],
  ['unlike, in three zones', 60, 5, 45, 3, true],
  ['unlike', 200, 5, 45, 1, true],
  ['unlike', 600, 5, 45, 1, true],
  ['nearly alike', 600, 14.6, 15.4, 1, true],
] as const;

/** Prints times of sharing out, quick and careful, ten walls each: how many were proved, and the largest gap. */
export async function benchShare(): Promise<void> {
  for (const [what, count, least_W, most_W, zoneCount, priced] of walls)
    for (const [accuracy, effort] of [
      ['quick', quickSharing],
      ['careful', carefulSharing],
    ] as const) {
      const shared = Array.from({ length: count > 100 ? 5 : 10 }, (_, i) => {
        const given = sharingWall({ seed: i + 1, count, least_W, most_W, zoneCount, priced });
        const before = performance.now();
        const outcome = shareOut(given, effort);
        const ms = performance.now() - before;
        if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
        return { ms, ...outcome.value.sharing };
      });
      const times = shared.map(({ ms }) => ms).sort((a, b) => a - b);
      const gap = Math.max(...shared.map((each) => each.gap));
      const proved = shared.filter(({ isProved }) => isProved).length;
      const beside = shared.filter(({ isSideBySide }) => isSideBySide).length;
      console.log(
        `share ${accuracy}: ${count} runs ${what}: ${times[times.length >> 1]!.toFixed(0)} ms median, ${times.at(-1)!.toFixed(0)} ms most; ${proved} of ${shared.length} proved, gap ${(100 * gap).toFixed(2)} % at most, ${beside} side by side`,
      );
    }
}
