/**
 * The job that is on the table: its data with undo and redo, its plan, and the keeping of every edit.
 *
 * Edits wait in a line and are kept one by one. While the program does not answer they go on waiting, also in the browser's own
 * store, so that neither side's end loses one.
 */

import { Gone, type KeptJob, type Mistake, type Plan, type Problem, Refused, type Roof, get, post, put } from '../api/client';
import { type History, act, begin, redo, undo } from './history';
import type { Job } from './job';

interface Edit {
  text: string;
  what: string;
}

interface Waiting {
  base: number;
  edits: Edit[];
}

export type Keeping = 'kept' | 'keeping' | 'waiting' | 'newer';

/** Before an edit that nobody took is sent again, ms. */
const AGAIN = 1500;

export function textOf(job: Job): string {
  return `${JSON.stringify(job, null, 2)}\n`;
}

export class Desk {
  readonly id: number;
  version = $state(0);
  history: History<Job> = $state.raw(begin({} as Job));
  /** Under the hand, not kept yet. */
  preview: Job | undefined = $state.raw();
  plan: Plan | undefined = $state.raw();
  roof: Roof | undefined = $state.raw();
  problems: Problem[] = $state.raw([]);
  /** The planner is at work; `stopped` if somebody stopped it. */
  planning: 'no' | 'yes' | 'stopped' = $state('no');
  mistakes: Mistake[] = $state.raw([]);
  keeping: Keeping = $state('kept');
  /** What another window has kept. */
  newer: KeptJob | undefined = $state.raw();
  /** What went wrong that is nobody's edit. */
  trouble: unknown = $state.raw();

  #line: Edit[] = [];
  #isSending = false;
  #planning: AbortController | undefined;
  #raising: AbortController | undefined;
  #windows = new BroadcastChannel('headlap');

  constructor(kept: KeptJob) {
    this.id = kept.id;
    this.#put(kept);
    this.#takeWaiting();
    this.#windows.onmessage = ({ data }) => {
      if (data === this.id) void this.look();
    };
    void this.#replan();
  }

  get job(): Job {
    return this.preview ?? this.history.now;
  }

  /** Does something and keeps it. */
  edit(what: string, job: Job): void {
    this.preview = undefined;
    this.#to(act(this.history, what, job), what);
  }

  undo(): void {
    const last = this.history.done.at(-1);
    if (last) this.#to(undo(this.history), `undo: ${last.what}`);
  }

  redo(): void {
    const next = this.history.undone.at(-1);
    if (next) this.#to(redo(this.history), `redo: ${next.what}`);
  }

  /** Shows a job under the hand: only its roof is raised, and nothing is kept. */
  show(job: Job | undefined): void {
    this.preview = job;
    void this.#raise();
  }

  /** Takes what the other window kept, or keeps our own as the next revision over it. */
  settle(take: 'theirs' | 'ours'): void {
    const theirs = this.newer;
    if (!theirs) return;
    const ours = this.history.now;
    this.newer = undefined;
    this.#line = [];
    this.#remember();
    this.#put(theirs);
    if (take === 'ours') this.edit('kept over the other window', ours);
    void this.#replan();
  }

  /** Whether another window has kept something since. */
  async look(): Promise<void> {
    if (this.#line.length > 0 || this.newer) return;
    const kept = await get('/api/jobs/{id}', { id: this.id }).catch(() => undefined);
    if (!kept || kept.version <= this.version || this.#line.length > 0) return;
    this.#put(kept);
    void this.#replan();
  }

  close(): void {
    this.#windows.close();
    this.#planning?.abort();
    this.#raising?.abort();
  }

  #put(kept: KeptJob): void {
    this.version = kept.version;
    this.history = begin(JSON.parse(kept.text) as Job);
    this.keeping = 'kept';
  }

  #to(history: History<Job>, what: string): void {
    if (history === this.history) return;
    this.history = history;
    this.#line.push({ text: textOf(history.now), what });
    this.#remember();
    void this.#send();
    void this.#replan();
  }

  async #send(): Promise<void> {
    if (this.#isSending || this.newer) return;
    this.#isSending = true;
    for (let edit = this.#line[0]; edit; edit = this.#line[0]) {
      if (this.keeping !== 'waiting') this.keeping = 'keeping';
      if (!(await this.#sendOne(edit))) break;
    }
    this.#isSending = false;
  }

  /** Whether the line can go on. */
  async #sendOne(edit: Edit): Promise<boolean> {
    try {
      const kept = await put('/api/jobs/{id}', { base: this.version, ...edit }, { id: this.id });
      this.#isKept(kept.version);
      return true;
    } catch (error) {
      if (error instanceof Refused && error.status === 409) return this.#meet(error.body as KeptJob, edit);
      if (error instanceof Gone || (error instanceof Refused && error.status >= 500)) {
        this.keeping = 'waiting';
        setTimeout(() => void this.#send(), AGAIN);
      } else {
        this.trouble = error;
      }
      return false;
    }
  }

  /** The program may have ended after it kept an edit and before it said so. */
  #meet(newest: KeptJob, edit: Edit): boolean {
    if (newest.text === edit.text && newest.version === this.version + 1) {
      this.#isKept(newest.version);
      return true;
    }
    this.newer = newest;
    this.keeping = 'newer';
    return false;
  }

  #isKept(version: number): void {
    this.version = version;
    this.#line.shift();
    this.#remember();
    if (this.#line.length === 0) this.keeping = 'kept';
    this.#windows.postMessage(this.id);
  }

  get #key(): string {
    return `waiting-${this.id}`;
  }

  #remember(): void {
    try {
      const waiting: Waiting = { base: this.version, edits: this.#line };
      if (this.#line.length === 0) localStorage.removeItem(this.#key);
      else localStorage.setItem(this.#key, JSON.stringify(waiting));
    } catch {
      // A browser that keeps nothing still sends.
    }
  }

  /** Edits that an earlier page could not hand over. */
  #takeWaiting(): void {
    let waiting: Waiting | undefined;
    try {
      waiting = JSON.parse(localStorage.getItem(this.#key) ?? 'null') ?? undefined;
    } catch {
      return;
    }
    const last = waiting?.edits.at(-1);
    if (!waiting || !last || JSON.stringify(JSON.parse(last.text)) === JSON.stringify(this.history.now)) return;
    this.#line = waiting.edits;
    this.history = act(this.history, last.what, JSON.parse(last.text) as Job);
    this.version = waiting.base;
    void this.#send();
  }

  async #replan(): Promise<void> {
    this.#planning?.abort();
    const planning = (this.#planning = new AbortController());
    this.planning = 'yes';
    await this.#ask(async () => {
      const { mistakes, plan } = await post('/api/plan', { text: textOf(this.history.now) }, {}, planning.signal);
      if (planning.signal.aborted) return;
      this.plan = plan ?? undefined;
      this.#tell(mistakes, plan?.problems ?? [], plan?.roof);
    });
    if (this.#planning === planning && !planning.signal.aborted) this.planning = 'no';
  }

  /** Waits no longer for the plan. */
  stopPlanning(): void {
    this.#planning?.abort();
    this.planning = 'stopped';
  }

  /** Plans what was stopped. */
  planAgain(): void {
    void this.#replan();
  }

  async #raise(): Promise<void> {
    this.#raising?.abort();
    const raising = (this.#raising = new AbortController());
    await this.#ask(async () => {
      const { mistakes, problems, roof } = await post('/api/roof', { text: textOf(this.job) }, {}, raising.signal);
      if (!raising.signal.aborted) this.#tell(mistakes, problems, roof ?? undefined);
    });
  }

  #tell(mistakes: Mistake[], problems: Problem[], roof: Roof | undefined): void {
    this.mistakes = mistakes;
    this.problems = problems;
    // A roof that cannot be raised for a moment stays, so that the drawing does not flicker under the hand.
    if (roof || !this.preview) this.roof = roof;
    this.trouble = undefined;
  }

  async #ask(ask: () => Promise<void>): Promise<void> {
    try {
      await ask();
    } catch (error) {
      if (error instanceof Refused) this.trouble = error;
      if (error instanceof Gone) setTimeout(() => void this.#replan(), AGAIN);
    }
  }
}
