import type { Section } from '../answer/section.ts';
import type { Job } from '../job/job.ts';
import { hasOwnWidths } from '../job/slot-widths.ts';
import type { LitProducts } from './light-of-job.ts';
import { profileParts } from './profile-parts.ts';
import { behindAnswer } from './wall-of-job.ts';

/** Layers of the build-up from the wall. */
function layersOf({ section }: Job): Section['layers'] {
  const { backing, cavity_mm, front } = section;
  return [
    { id: 'backing', name: `Backing, ${backing.material}`, thickness_mm: backing.thickness_mm },
    { id: 'cavity', name: 'Cavity with the strip', thickness_mm: cavity_mm },
    { id: 'front', name: `Front, ${front.material}`, thickness_mm: front.thickness_mm },
  ];
}

/** On which side of the slot the panel ends, as heat has it (`isEdgeRight`): 1 to the right. */
const edgeSide = ({ section: { strip, stripOffset_mm } }: Job): 1 | -1 =>
  strip === 'recessed' || (strip !== 'side' && stripOffset_mm >= 0) ? 1 : -1;

/** The section the questions of heat and light were asked of. */
export function sectionAnswer(
  job: Job,
  products: LitProducts,
  pitch_mm: number,
  edge_mm: number | null = null,
): Section {
  const layers = layersOf(job);
  return {
    ...(hasOwnWidths(job.slots) && { slotWidth_mm: job.slots.width_mm }),
    pitch_mm,
    edge_mm: edge_mm === null ? null : edgeSide(job) * edge_mm,
    layers,
    depth_mm: layers.reduce((sum, layer) => sum + layer.thickness_mm, 0),
    available_mm: job.section.available_mm,
    behind: behindAnswer(job),
    profile: profileParts(job, products, pitch_mm),
  };
}
