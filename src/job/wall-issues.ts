import type { JobIssue } from './issues.ts';
import type { Job } from './job.ts';

/** The standard's table of air layers ends here. */
const thickestAir_mm = 300;

const issue = (code: JobIssue['code'], field: string, sentence: string): JobIssue => ({
  code,
  place: { field },
  quantities: {},
  sentence,
});

/** What a wall of layers has to say before its resistance can be worked out. */
export function wallIssues({ section: { behind, wall } }: Job): JobIssue[] {
  if (behind !== 'layers') return [];
  if (wall === null)
    return [
      issue(
        'wall-missing',
        'section.behind',
        'The wall behind the backing is to be worked out from its layers, and none are given: list them, or choose insulation.',
      ),
    ];
  const { layers, beyond, beyond_degC } = wall;
  const ofLayers = layers.flatMap(({ material, thickness_mm, conductivity_W_per_mK }, k) => {
    const at = `section.wall.layers[${k + 1}]`;
    if (material === 'other' && conductivity_W_per_mK === null)
      return [
        issue(
          'conductivity-missing',
          `${at}.conductivity_W_per_mK`,
          `Layer ${k + 1} of the wall is of a material of your own: enter its conductivity from the maker's data sheet, or choose a material of the list.`,
        ),
      ];
    if (material === 'air, not ventilated' && thickness_mm > thickestAir_mm)
      return [
        issue(
          'air-layer-too-thick',
          `${at}.thickness_mm`,
          `Layer ${k + 1} of the wall is of air and thicker than ${thickestAir_mm} mm, for which there is no tabulated resistance: end the wall before it, with a room on the far side.`,
        ),
      ];
    return [];
  });
  return beyond === 'outside' && beyond_degC === null
    ? [
        ...ofLayers,
        issue(
          'outside-temperature-missing',
          'section.wall.beyond_degC',
          'Outside air is on the far side of the wall: enter the warmest it gets there, or of a wall in the sun the warmest its outer face gets.',
        ),
      ]
    : ofLayers;
}
