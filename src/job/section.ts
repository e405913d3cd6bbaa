import * as z from 'zod';
import { profileChoice } from './profile.ts';
import { choice, quantity } from './quantity.ts';

/** Sheet materials for front and backing; conductivities stand in the heat folder under these names. */
export const boards = [
  'softwood',
  'oak',
  'ash',
  'maple',
  'walnut',
  'birch plywood',
  'MDF',
  'particleboard',
  'plasterboard',
] as const;

/** What the cavity faces look like; reflectances stand in the light folder under these names. */
export const finishes = [
  'matt white paint',
  'white plaster',
  'natural anodised aluminium',
  'maple or birch',
  'raw birch plywood',
  'light oak',
  'raw MDF',
  'light grey',
  'dark oak',
  'walnut',
  'mid grey',
  'matt black paint',
] as const;

/** Covers of a slot; transmittances stand in the light folder under these names. */
export const slotCovers = [
  'open',
  'opal acrylic',
  'light opal acrylic',
  'satin or frosted acrylic',
  'prismatic sheet',
  'clear acrylic, 3 mm',
] as const;

const board = (label: string) =>
  z.strictObject({
    material: choice(`${label} material`, boards),
    thickness_mm: quantity({
      label: `${label} thickness`,
      unit: 'mm',
      min: 1,
      max: 60,
      why: 'boards run from 1 mm veneer carriers to 60 mm solid timber',
    }),
  });

/** The horizontal cut through the build-up, from the wall to the room. */
export const section = z.strictObject({
  available_mm: quantity({
    label: 'Depth available for the whole build-up',
    unit: 'mm',
    min: 10,
    max: 500,
    why: 'lit panels are built 30 to 100 mm deep',
  }),
  tolerance_mm: quantity({
    label: 'Tolerance of the build-up',
    unit: 'mm',
    min: 0,
    max: 20,
    why: 'walls are out of true by a few millimetres',
  }),
  backing: board('Backing'),
  cavity_mm: quantity({
    label: 'Cavity depth',
    unit: 'mm',
    min: 5,
    max: 300,
    why: 'strip and its solder joints need 5 mm; beyond 300 mm this is a room, not a cavity',
  }),
  front: board('Front'),
  batten_mm: quantity({
    label: 'Batten width between slots',
    unit: 'mm',
    min: 0,
    max: 500,
    why: 'give 0 where no batten stands between the slots',
  }),
  cover: choice('Slot cover', slotCovers),
  coverThickness_mm: quantity({
    label: 'Cover thickness',
    unit: 'mm',
    min: 1,
    max: 12,
    why: 'acrylic sheet is sold from 2 to 10 mm',
  }),
  strip: choice('Strip position', ['backing', 'front', 'side', 'recessed']),
  stripOffset_mm: quantity({
    label: 'Strip offset from the middle of the slot',
    unit: 'mm',
    min: -1000,
    max: 1000,
    why: 'the strip has to lie inside its own cavity',
  }),
  carrier: choice('Aluminium under the strip', ['none', 'flat aluminium']),
  carrierWidth_mm: quantity({
    label: 'Width of the aluminium flat',
    unit: 'mm',
    min: 5,
    max: 300,
    why: 'aluminium flats are sold from 10 to 200 mm wide',
  }),
  carrierThickness_mm: quantity({
    label: 'Thickness of the aluminium flat',
    unit: 'mm',
    min: 0.5,
    max: 10,
    why: 'aluminium flats are sold from 1 to 6 mm thick',
  }),
  /** The aluminium profile the strip lies in; none where it is left out, as in every job before there were any. */
  profile: profileChoice.nullable().default(null),
  behind: choice('Behind the backing', ['insulation', 'inner wall']),
  backFinish: choice('Finish of the backing', finishes),
  sideFinish: choice('Finish of the cavity sides', finishes),
  frontFinish: choice('Finish of the inner face of the front', finishes),
});

export type Board = (typeof boards)[number];
export type Finish = (typeof finishes)[number];
export type SlotCover = (typeof slotCovers)[number];
