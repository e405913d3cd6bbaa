import type { Section } from '../answer/section.ts';
import type { Job } from '../job/job.ts';
import type { LitProducts } from './light-of-job.ts';
import { profileParts } from './profile-parts.ts';

/** Layers of the build-up from the wall. */
function layersOf({ section }: Job): Section['layers'] {
  const { backing, cavity_mm, front } = section;
  return [
    { id: 'backing', name: `Backing, ${backing.material}`, thickness_mm: backing.thickness_mm },
    { id: 'cavity', name: 'Cavity with the strip', thickness_mm: cavity_mm },
    { id: 'front', name: `Front, ${front.material}`, thickness_mm: front.thickness_mm },
  ];
}

/** The section the questions of heat and light were asked of. */
export function sectionAnswer(job: Job, products: LitProducts, pitch_mm: number): Section {
  const layers = layersOf(job);
  return {
    pitch_mm,
    layers,
    depth_mm: layers.reduce((sum, layer) => sum + layer.thickness_mm, 0),
    available_mm: job.section.available_mm,
    profile: profileParts(job, products, pitch_mm),
  };
}
