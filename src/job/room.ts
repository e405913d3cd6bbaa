import * as z from 'zod';
import { choice, line, quantity } from './quantity.ts';

/** What a point of a room looks at: a floor or a desk up, the wall across the room at the lit one. */
const planes = ['level', 'facing wall'] as const;

/** A place in the room that light is wanted on. */
export const roomPoint = z.strictObject({
  name: line('Place in the room', 30),
  plane: choice('Light falls on', planes),
  distance_mm: quantity({
    label: 'Distance from the lit wall',
    unit: 'mm',
    min: 50,
    max: 30000,
    why: 'nearer than 50 mm it lies in the slot, farther than 30 m in another room',
  }),
  height_mm: quantity({
    label: 'Height above the floor',
    unit: 'mm',
    min: 0,
    max: 8000,
    why: '0 is the floor itself, a desk is about 750 mm high',
  }),
  along_mm: quantity({
    label: 'Place along the wall',
    unit: 'mm',
    min: -10000,
    max: 40000,
    why: 'measured from the left edge of the panel; left out, it is before its middle',
  })
    .nullable()
    .default(null),
  wanted_lx: quantity({
    label: 'Wanted light',
    unit: 'lx',
    min: 0.1,
    max: 5000,
    why: 'moonlight is 0.2 lx, a desk for fine work near 1,000 lx',
  })
    .nullable()
    .default(null),
});

/** The most places of a room a job asks for. */
export const mostRoomPoints = 8;

/** The room before the wall, as far as its light goes. */
export const room = z.strictObject({
  width_mm: quantity({
    label: 'Room along the wall',
    unit: 'mm',
    min: 500,
    max: 100000,
    why: 'from a booth to a hall',
  }),
  depth_mm: quantity({
    label: 'Room away from the wall',
    unit: 'mm',
    min: 500,
    max: 100000,
    why: 'from a passage to a hall',
  }),
  height_mm: quantity({
    label: 'Height of the room',
    unit: 'mm',
    min: 500,
    max: 20000,
    why: 'from a sleeping berth to a hall of 20 m',
  }),
  reflectance: quantity({
    label: 'Reflectance of the room, on average',
    unit: '',
    min: 0,
    max: 0.9,
    isWrittenPlain: true,
    why: 'dark rooms are about 0.2, usual ones 0.5, white ones 0.7',
  }),
  maintenance: quantity({
    label: 'Maintenance factor',
    unit: '',
    min: 0.3,
    max: 1,
    isWrittenPlain: true,
    why: 'what is left of the light after years of dust and ageing: about 0.8, and 1 for a new wall',
  }),
  points: z
    .array(roomPoint)
    .max(mostRoomPoints, { error: `A job asks for the light at ${mostRoomPoints} places at most.` }),
});

export type Room = z.infer<typeof room>;
export type RoomPoint = z.infer<typeof roomPoint>;

/** The floor a metre before the wall, which most people ask for first. */
export const newRoomPoint = (name: string): RoomPoint => ({
  ...{ name, plane: 'level', distance_mm: 1000, height_mm: 0, along_mm: null, wanted_lx: null },
});

/** A living room to begin from; reflectance and maintenance are common practice. */
export const newRoom = (): Room => ({
  ...{ width_mm: 5000, depth_mm: 4000, height_mm: 2500, reflectance: 0.5, maintenance: 0.8 },
  points: [newRoomPoint('Floor')],
});
