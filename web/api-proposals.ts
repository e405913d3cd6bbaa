import type { ProposalLine } from '../server/contract/proposals.ts';
import type { ProposalProgress, Proposals } from '../src/answer/proposals.ts';
import type { Job } from '../src/job/job.ts';
import type { Openable } from '../src/job/open-choices.ts';
import type { Issue } from '../src/outcome.ts';
import { ask, posted, type Reply } from './api.ts';

/** What is said while a proposal is worked out: how far it has come, or that others come first. */
export type ProposalNews =
  | { readonly kind: 'progress'; readonly progress: ProposalProgress }
  | { readonly kind: 'waiting'; readonly sentence: string };

interface ProposalsAsked {
  readonly job: Job;
  readonly open: readonly Openable[];
}

/** Reads lines of JSON as they come, and gives back the last. */
async function lastLine(
  response: Response,
  onNews: (news: ProposalNews) => void,
): Promise<ProposalLine | undefined> {
  const reader = response.body!.pipeThrough(new TextDecoderStream()).getReader();
  let rest = '';
  let last: ProposalLine | undefined;
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    const lines = (rest + part.value).split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) {
      last = JSON.parse(line) as ProposalLine;
      if (last.kind === 'progress' || last.kind === 'waiting') onNews(last);
    }
  }
  return last;
}

const cutOff = 'The service ended before it had an answer: ask again.';

function replyOf(line: ProposalLine | undefined): Reply<Proposals> {
  if (line?.kind === 'answer') return { kind: 'answer', value: line.answer };
  if (line?.kind !== 'problem') return { kind: 'failed', cause: 'silence', detail: cutOff };
  const { status, detail, issues } = line.problem;
  if (status >= 500) return { kind: 'failed', cause: status === 500 ? 'mistake' : 'busy', detail };
  return { kind: 'refused', status, detail, issues: issues as readonly Issue[], hasGoodCopy: false };
}

/** Whole designs for a job with open choices; the signal ends the work. */
export async function askProposals(
  asked: ProposalsAsked,
  signal: AbortSignal,
  onNews: (news: ProposalNews) => void,
): Promise<Reply<Proposals>> {
  const reply = await ask('/api/proposals', { ...posted(asked), signal }, (response) =>
    lastLine(response, onNews),
  );
  return reply.kind === 'answer' ? replyOf(reply.value) : reply;
}
