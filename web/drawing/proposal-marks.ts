import { type SVGTemplateResult, svg } from 'lit';
import type { Proposal } from '../../src/answer/proposals.ts';
import { onPaper } from '../format.ts';

const width = 132;
const height = 62;

/** The cut through the build-up: backing, cavity and front to one scale, the depth there is as a line. */
function build({ section }: Proposal['sizing'], scale: number): SVGTemplateResult {
  let y = 6;
  const layers = section.layers.map((layer) => {
    const high = scale * layer.thickness_mm;
    const at = y;
    y += high;
    return svg`<rect class="mark-${layer.id}" x="4" width="46" y=${onPaper(at)} height=${onPaper(high)}></rect>`;
  });
  const available = 6 + scale * section.available_mm;
  return svg`${layers}<path class="mark-available" d="M2 ${onPaper(available)}H52"></path>`;
}

const columns = 6;

/** A square for each driver, up to as many as there is room for. */
function driverSquares(count: number): SVGTemplateResult[] {
  const shown = Math.min(count, 3 * columns);
  return Array.from(
    { length: shown },
    (_, i) =>
      svg`<rect class="mark-driver" x=${62 + 11 * (i % columns)} y=${6 + 11 * Math.floor(i / columns)} width="8" height="8"></rect>`,
  );
}

/** How feeds reach the strips: a line to each, or one along them with taps. */
function feedLines({ cables }: Proposal['job']): SVGTemplateResult {
  const strips = [66, 80, 94, 108, 122].map((x) => `M${x} 42V58`).join('');
  const ways: Readonly<Record<typeof cables.layout, string>> = {
    radial: 'M62 40H66V42M62 38H80V42M62 36H94V42',
    trunk: 'M62 40H122M66 40v2M80 40v2M94 40v2M108 40v2M122 40v2',
    ring: 'M62 40H126V60H62V40M66 40v2M80 40v2M94 40v2M108 40v2M122 40v2',
    'run to run': 'M62 40H66V42M66 58H80M80 42H94M94 58H108M108 42H122',
  };
  return svg`<path class="mark-strip" d=${strips}></path><path class="mark-way" d=${ways[cables.layout]}></path>`;
}

/** A design as a small drawing: its cut, its drivers, how its cables go. What it shows stands in words beside it. */
export function proposalMark(design: Proposal, deepest_mm: number): SVGTemplateResult {
  const scale = (height - 12) / deepest_mm;
  return svg`<svg class="proposal-mark" width=${width} height=${height} viewBox="0 0 ${width} ${height}" aria-hidden="true">
    ${build(design.sizing, scale)} ${driverSquares(design.measures.driverCount)} ${feedLines(design.job)}
  </svg>`;
}
