import { mm, naming } from '../words.ts';
import { type Check, remedy, type Sized } from './context.ts';

const otherWay = { head: 'foot', foot: 'head' } as const;

/** Cables above a panel that is lower than the wall, or below one that is raised: they would lie in the open. */
function besideIt(
  sized: Sized,
  { panel, cables: beside }: Sized['installation']['besidePanels'][number],
): Check {
  const { panels, cables } = sized.job;
  const i = panels.findIndex(({ id }) => id === panel);
  const { raised_mm, height_mm } = panels[i]!;
  return {
    id: `panel-cables-${i + 1}`,
    question: 'cables',
    status: 'fails',
    place: { cable: beside[0]!, field: 'cables.way' },
    title: `Cables past panel ${panel}`,
    value: beside.length,
    limit: 0,
    margin: -beside.length,
    unit: '',
    basis: 'cables run inside the piece',
    sentence: `${naming('Cable', beside)} would run outside panel ${panel}, which reaches from ${mm(raised_mm)} to ${mm(raised_mm + height_mm)} above the lower edge of the wall.`,
    remedies: [
      remedy(
        'cables.way',
        `Run the cables along the ${otherWay[cables.way]} instead of along the ${cables.way}.`,
      ),
      remedy(
        'cables.wayInset_mm',
        'Move the cable way further from the edge of the wall, so that it lies within every panel.',
      ),
      remedy('drivers.places', 'Give the panels on either side a place for drivers of their own.'),
    ],
  };
}

/** Checks of the panels a piece is made of: cables keep to them. */
export const panelFindings = (sized: Sized): Check[] =>
  sized.installation.besidePanels.map((each) => besideIt(sized, each));
