import slow from './slow.ts';

/** An engine that takes five seconds over every question. */
export default function engine(): never {
  slow({ busy_ms: 5000 });
  throw new Error('a secret of the thread');
}
