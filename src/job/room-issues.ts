import { mm } from '../words.ts';
import type { JobIssue } from './issues.ts';
import type { Job } from './job.ts';

/** Places of the room that lie behind its far wall or above its ceiling. */
export function roomIssues({ light: { room } }: Job): JobIssue[] {
  if (room === null) return [];
  return room.points.flatMap(({ name, distance_mm, height_mm }, i): JobIssue[] => {
    const isBehind = distance_mm > room.depth_mm;
    if (!isBehind && height_mm < room.height_mm) return [];
    const field = `light.room.points[${i + 1}].${isBehind ? 'distance_mm' : 'height_mm'}`;
    const called = name === '' ? `Place ${i + 1}` : name;
    return [
      {
        code: 'place-outside-room',
        place: { field },
        quantities: { distance_mm, height_mm, depth_mm: room.depth_mm, roomHeight_mm: room.height_mm },
        sentence: isBehind
          ? `${called} is ${mm(distance_mm)} from the lit wall, and the room ends at ${mm(room.depth_mm)}: move it nearer, or enter a deeper room.`
          : `${called} is ${mm(height_mm)} above the floor, and the room is ${mm(room.height_mm)} high: enter a height below the ceiling, or a higher room.`,
      },
    ];
  });
}
