import { getPriority } from 'node:os';

/** How much the thread gives way to others, 0 not at all and 19 most. */
export default function priority(): number {
  return getPriority();
}
