import { PassThrough } from 'node:stream';
import { type ProposalLine, proposalLine, proposalsAsked } from '../contract/proposals.ts';
import { problemFor } from '../faults.ts';
import { ProblemError, problemBody, problemOf } from '../problem.ts';
import { bodyStatuses, responses } from '../responses.ts';
import type { App, Service } from '../service.ts';
import { withdrawnSignal } from '../withdrawn.ts';
import type { EngineAnswer } from '../workers/engine.ts';
import type { ProposalsTask } from '../workers/proposals.ts';

/** Proposals that may be asked for at once: one is worked out, the others wait their turn. */
const most = 8;

const waitingSentence = (ahead: number): string =>
  ahead === 1
    ? 'Another proposal is being worked out; this one begins when that is done.'
    : `${ahead} proposals are worked out before this one, one after the other.`;

const schema = {
  tags: ['asked' as const],
  summary:
    'Whole designs that pass, for a job in which some choices are open; progress line by line, the answer last',
  body: proposalsAsked,
  response: responses(
    {
      200: {
        description: 'Lines of JSON, the last of them the answer or a problem',
        content: { 'application/x-ndjson': { schema: proposalLine } },
      },
    },
    [...bodyStatuses, 503],
  ),
};

/** POST /api/proposals: searched in a thread of its own that gives way to all others, and ended when the caller hangs up. */
export function proposalRoutes(app: App, service: Service): void {
  let underWay = 0;

  /** Writes progress as it comes and then the answer; what goes wrong meanwhile is the last line. */
  async function written(
    task: ProposalsTask,
    lines: PassThrough,
    { withdrawn, reference }: Caller,
  ): Promise<void> {
    const line = (text: string): void => void lines.write(`${text}\n`);
    const said = (one: ProposalLine): void => line(JSON.stringify(one));
    if (underWay > 0) said({ kind: 'waiting', sentence: waitingSentence(underWay) });
    underWay++;
    try {
      const onProgress = (text: string): void => line(`{"kind":"progress","progress":${text}}`);
      const answer = await service.heavy.follow<EngineAnswer>('proposals', { task, withdrawn, onProgress });
      if (!answer.ok) throw problemOf('refused', answer.issues);
      line(`{"kind":"answer","answer":${answer.text}}`);
    } catch (error) {
      if (!withdrawn.aborted) said({ kind: 'problem', problem: problemBody(problemFor(error), reference) });
    } finally {
      underWay--;
      lines.end();
    }
  }

  app.post('/api/proposals', { schema }, async (request, reply) => {
    if (underWay >= most)
      throw new ProblemError(
        'too-busy',
        `${most} proposals are waiting already: try again in a minute. Nothing was changed.`,
        { headers: { 'retry-after': '60' } },
      );
    const { job, open } = request.body;
    const lines = new PassThrough();
    void written({ job, open: open ?? null }, lines, {
      withdrawn: withdrawnSignal(reply),
      reference: request.id,
    });
    // A connection that was hung up on in the middle is not idle, and would keep a service that stops waiting for it.
    reply.header('connection', 'close');
    return reply.type('application/x-ndjson; charset=utf-8').send(lines);
  });
}

interface Caller {
  readonly withdrawn: AbortSignal;
  readonly reference: string;
}
