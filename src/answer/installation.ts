import * as z from 'zod';
import { caseKeys } from './cases.ts';
import { ids, num, text } from './values.ts';

const standing = z
  .strictObject({
    place: text,
    ...caseKeys,
    in_x_mm: num.describe('of the middle of the opposite side, or of the case'),
    in_y_mm: num,
  })
  .describe('where it stands');

const fuse = z.strictObject({
  id: text,
  family: z.enum(['cartridge', 'blade', 'electronic']),
  name: text,
  standard: text,
  remark: text.describe('what the electrician has to see to before this kind is used'),
  rated_V: num.nullable().describe('null where the family has none high enough'),
  opens_A: num.describe('opens it within 5 s'),
  breaking_A: num.nullable().describe('null for one that limits by itself'),
  rating_A: num,
  resistance_mohm: num,
  design_A: num.describe('it carries, should any other leg, run or feed be dead'),
  least_A: num.describe('what the thinnest cable behind it may carry'),
  current_A: num,
  loss_W: num,
});

const way = z.strictObject({
  number: num.describe('counted from 1'),
  fuse: fuse.nullable(),
  cables: ids.describe('made off to it'),
});

const block = z
  .strictObject({
    id: text,
    output: text.describe('driver output it hands on'),
    standing: standing.nullable().describe('null where its place has no room for it'),
    ways: z.array(way),
  })
  .describe('distribution block: one pair of terminals in, several out');

const dimmer = z.strictObject({
  id: text,
  name: text,
  output: text.describe('driver output it dims'),
  standing: standing.nullable().describe('null where its place has no room for it'),
  channel_A: num.describe('rating of one channel'),
  current_A: num.describe('in its busiest channel, in a pulse too'),
  loss_W: num.describe('heat in it, on average: in its channels, and what it takes itself'),
});

const tap = z
  .strictObject({ id: text, cable: text.describe('it passes'), x_mm: num, y_mm: num })
  .describe('connector on a trunk that is not cut, from which branches leave');

const fullestWay = z
  .strictObject({
    x_mm: num,
    y_mm: num,
    area_mm2: num.describe('cross-sections of all cables there, sheath included'),
    cables: ids.describe('once for each time they pass'),
  })
  .describe('the spot of the cable ways through which most cable passes');

const throughOpening = z
  .strictObject({ opening: num.describe('of the openings of the job, from 0'), cables: ids })
  .describe('an opening that cables run through, which begin or end in it or find no way round');

const besidePanel = z
  .strictObject({ panel: text.describe('mark of the panel'), cables: ids })
  .describe('a panel lower than the wall, or raised, that cables run above or below');

/** What stands between driver outputs and cables, and where. */
export const installation = z.strictObject({
  blocks: z.array(block),
  dimmers: z.array(dimmer),
  taps: z.array(tap),
  fullestWay: fullestWay.nullable().describe('null where nothing lies in a way'),
  throughOpenings: z.array(throughOpening).describe('empty where every cable goes round'),
  besidePanels: z.array(besidePanel).describe('empty where every cable keeps to the panels'),
});

export type Standing = z.infer<typeof standing>;
export type Dimmer = z.infer<typeof dimmer>;
export type Block = z.infer<typeof block>;
export type BlockWay = z.infer<typeof way>;
export type InstallationAnswer = z.infer<typeof installation>;
