import type { IncomingMessage } from 'node:http';

/** Beyond this a sender is cut off instead of being heard out. */
const patience = { bytes: 64 * 1024 * 1024, ms: 10_000 };

/**
 * Reads the rest of a body that is not wanted and forgets it. A browser that is cut off while sending shows its
 * own "connection reset" instead of the sentence of the answer.
 */
export function discardRest(request: IncomingMessage): Promise<void> {
  return new Promise((resolve) => {
    let byteCount = 0;
    const timer = setTimeout(finish, patience.ms);
    function finish(): void {
      clearTimeout(timer);
      request.removeAllListeners('data');
      resolve();
    }
    request.on('data', (chunk: Buffer) => {
      byteCount += chunk.length;
      if (byteCount > patience.bytes) finish();
    });
    request.once('end', finish).once('close', finish).once('error', finish);
    if (request.readableEnded || request.destroyed) finish();
    else request.resume();
  });
}
