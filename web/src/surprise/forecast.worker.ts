import { nineCells } from '@gapline/core/gaps/nine-cells.ts';
import { planningForSurprise } from '@gapline/core/plan/plan-for-surprise.ts';
import type { SurpriseInput } from '@gapline/core/plan/surprise.ts';
import { SurpriseMemory } from '@gapline/core/plan/surprise-memory.ts';
import { inSlices } from './forecast/in-slices.ts';
import type { FromWorker, ToWorker } from './forecast/messages.ts';

/** The run that is wanted; a start or a stop changes it, and whatever runs then ends at its next breath. */
let wanted = 0;

/** What was reckoned before: ticking a set draws no knee anew. */
const memory = new SurpriseMemory();

/** A message to oneself stands behind those that came before it: what arrived meanwhile is heard first. */
const door = new MessageChannel();
let onBreath: () => void = () => undefined;
door.port1.onmessage = () => onBreath();
const breathe = (): Promise<void> =>
  new Promise((done) => {
    onBreath = done;
    door.port2.postMessage(null);
  });

const say = (message: FromWorker): void => self.postMessage(message);

/** One pass of the pipeline in slices; null = no longer wanted. */
const pass = (run: number, input: SurpriseInput) =>
  inSlices(planningForSurprise(input, memory), {
    wanted: () => wanted === run,
    now: () => performance.now(),
    breathe,
    tell: (progress) => say({ run, kind: 'progress', progress }),
  });

/** The forecast is told as soon as it stands; the second pass recalls it and goes on to the sets. */
async function work(run: number, input: SurpriseInput): Promise<void> {
  const start = performance.now();
  if (input.setList) {
    const first = await pass(run, { ...input, setList: null });
    if (!first) return;
    say({ run, kind: 'forecast', answer: first });
  }
  const answer = await pass(run, input);
  if (answer) say({ run, kind: 'done', answer, tookMs: performance.now() - start });
}

self.addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  if (data.kind === 'cells') return say({ kind: 'cells', asked: data.asked, cells: nineCells(data.question) });
  wanted = data.kind === 'start' ? data.run : 0;
  if (data.kind === 'start') {
    const { run, input } = data;
    work(run, input).catch((fault: unknown) => say({ run, kind: 'failed', message: String(fault) }));
  }
});
