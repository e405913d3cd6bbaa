import { config } from 'zod';
import { askDemoJobs } from './api.ts';
import { askPrintedCharacters } from './api-papers.ts';
import './parts/slotwatt-page.ts';
import type { SlotwattPage } from './parts/slotwatt-page.ts';
import { openDemo } from './state/files.ts';
import { redo, undo } from './state/history.ts';
import { jumpToPapers } from './state/jump.ts';
import { openFile } from './state/open-file.ts';
import { refreshProducts } from './state/own-products.ts';
import { keepComputed } from './state/recompute.ts';
import { keepSteps, keepStored, storedDraft, storedSteps } from './state/storage.ts';
import { createStore, emptyState, type Store } from './state/store.ts';
import { refreshWorkshop } from './state/workshop.ts';

/** The first run is chosen until somebody chooses another, and again when the chosen one is gone; so are picked slots let go of. */
function keepChosen(store: Store): void {
  store.listen(() => {
    const { answer, chosenRun, pickedSlots } = store.get();
    const { runs = [], slots = [] } = answer?.sizing.setOut ?? {};
    const stillThere = pickedSlots.filter((picked) => slots.some(({ number }) => number === picked));
    if (stillThere.length < pickedSlots.length) store.set({ pickedSlots: stillThere });
    if (runs.length === 0 || runs.some((run) => run.id === chosenRun)) return;
    store.set({ chosenRun: runs[0]!.id });
  });
}

function takeKeys(store: Store): void {
  window.addEventListener('keydown', (event) => {
    const key = event.key.toLowerCase();
    if (!(event.ctrlKey || event.metaKey) || event.altKey || !['z', 'y', 'p'].includes(key)) return;
    event.preventDefault();
    // What is printed is the pack: a print of the page would be its controls and half of the papers.
    if (key === 'p') return jumpToPapers(store);
    if (store.get().frozen) return;
    if (key === 'y' || event.shiftKey) redo(store);
    else undo(store);
  });
}

function takeDrops(store: Store): void {
  window.addEventListener('dragover', (event) => event.preventDefault());
  window.addEventListener('drop', (event) => {
    event.preventDefault();
    const [file] = event.dataTransfer?.files ?? [];
    if (file) void openFile(store, file);
  });
}

/** A first visit opens the first demo job, so that there is something to look at and to change. */
async function openSomething(store: Store): Promise<void> {
  const reply = await askDemoJobs();
  if (reply.kind === 'answer') {
    store.set({ demoJobs: reply.value });
    const [first] = reply.value;
    if (first && !store.get().draft) await openDemo(store, first.id);
  } else if (!store.get().draft) {
    store.set({ standing: { is: 'offline', detail: 'detail' in reply ? reply.detail : '' } });
    setTimeout(() => void openSomething(store), 2000);
  }
}

/** Until the service has said what its papers can print, the page says nothing of it. */
async function learnPrinted(store: Store): Promise<void> {
  const reply = await askPrintedCharacters();
  if (reply.kind === 'answer') store.set({ printed: reply.value.ranges });
  else if (reply.kind === 'failed') setTimeout(() => void learnPrinted(store), 5000);
}

/** Asks for the rest of the page's script until it is here. */
function loadRest(): void {
  import('./later.ts').catch(() => setTimeout(loadRest, 2000));
}

/** The rest of the page comes once the first figures are drawn, or it is known what keeps them. */
function loadRestAfterFigures(store: Store): void {
  const stop = store.listen(() => {
    const { draft, standing } = store.get();
    if (!draft || standing.is === 'waiting') return;
    stop();
    requestAnimationFrame(() => setTimeout(loadRest));
  });
}

function start(): void {
  // The page's security headers forbid code made from text, which zod would try first.
  config({ jitless: true });
  const store = createStore({ ...emptyState, draft: storedDraft(), ...storedSteps() });
  loadRestAfterFigures(store);
  const retry = keepComputed(store);
  keepChosen(store);
  keepStored(store);
  keepSteps(store);
  takeKeys(store);
  takeDrops(store);
  const page = document.createElement('slotwatt-page') as SlotwattPage;
  page.store = store;
  page.retry = () => (store.get().draft ? retry() : void openSomething(store));
  document.body.append(page);
  void openSomething(store);
  void refreshWorkshop(store);
  void learnPrinted(store);
  void refreshProducts(store);
}

start();
