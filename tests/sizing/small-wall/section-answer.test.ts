import { describe, expect, it } from 'vitest';
import { sectionAnswer } from '../../../src/sizing/section-answer.ts';
import { preparedOf, wallOf } from './small-wall.ts';

describe('the build-up', () => {
  it('is backing, cavity and front one on the other: 9 + 14 + 12 mm of the 40 there are', () => {
    const job = wallOf([600], ({ section }) => {
      Object.assign(section.backing, { thickness_mm: 9, material: 'plywood' });
      Object.assign(section.front, { thickness_mm: 12, material: 'oak' });
      Object.assign(section, { cavity_mm: 14, available_mm: 40 });
    });
    expect(sectionAnswer(job, preparedOf(wallOf([600])).products, 240)).toEqual({
      pitch_mm: 240,
      edge_mm: null,
      layers: [
        { id: 'backing', name: 'Backing, plywood', thickness_mm: 9 },
        { id: 'cavity', name: 'Cavity with the strip', thickness_mm: 14 },
        { id: 'front', name: 'Front, oak', thickness_mm: 12 },
      ],
      depth_mm: 35,
      available_mm: 40,
      behind: null,
      profile: null,
    });
  });
});
