/** No control for show: each one that edits the job changes its plan or its price. */

import { type Page } from '@playwright/test';
import { type Job } from '../src/job/job';
import { type PartKey, setPart } from '../src/job/parts';
import { fullJobs } from './full-job';
import { type Program, expect, test } from './program';

type Table = Record<string, unknown>;
type Control = { path: string; options: string[] };

const TYPED = [
  '1 in', '3 in', '1/4 in', '9 in', '2 ft', '0.03 in', '0.2 in', '5 ft', '30 in', '12 in', '9 ft', '11/12', '3/12', '-20 F', '30 F', '110 F', 'red', 'something else', '2', '7', '60', '0.42', '1.2', '1900', '500', '160', '1', '3', '25',
];

/** What a field may become when something is typed into it, a list of values among them. */
const typed = (text: string): unknown[] => (Number.isFinite(Number(text)) ? [Number(text), text] : [text, [text]]);

function steps(path: string): (string | number)[] {
  return path.split(/[.[\]]+/).filter((step) => step !== '').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
}

function withAt(table: unknown, [step, ...rest]: (string | number)[], value: unknown): unknown {
  if (step === undefined) return value;
  if (typeof step === 'number') return (table as unknown[]).with(step, withAt((table as unknown[])[step], rest, value));
  const next = withAt((table as Table | undefined)?.[step], rest, value);
  const { [step]: _, ...others } = (table ?? {}) as Table;
  return next === '' ? others : { ...others, [step]: next };
}

/** The job's papers, byte by byte; nothing where it has a mistake. */
async function papers(page: Page, program: Program, job: unknown): Promise<string | undefined> {
  const data = { text: JSON.stringify(job) };
  const ask = async (path: string) => (await page.request.post(`${program.address}${path}`, { data })).text();
  const plan = await ask('/api/plan');
  return plan.startsWith('{"mistakes":[]') ? plan + (await ask('/api/price')) : undefined;
}

/** Every named field on the screen. */
function controls(page: Page): Promise<Control[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement>('main [name*="."]')].map((field) => ({
      path: field.name,
      options: field instanceof HTMLSelectElement ? [...field.options].map(({ value }) => value) : [],
    })),
  );
}

/** As the screen changes it: what a new place or kind of an opening shuts out goes. */
function edited(job: Table, path: string, value: unknown): unknown {
  const [, key, index, field] = /^(dormer|opening)\[(\d+)\]\.(\w+)$/.exec(path) ?? [];
  return key && field ? setPart(job as Job, key as PartKey, Number(index), { [field]: value }) : withAt(job, steps(path), value);
}

async function isIdle(page: Page, program: Program, { path, options }: Control): Promise<boolean> {
  for (const job of fullJobs()) {
    const before = await papers(page, program, job);
    const values = options.length > 0 ? options.flatMap((option) => (option === 'true' || option === 'false' ? [option === 'true'] : typed(option))) : ['', ...TYPED].flatMap(typed);
    for (const value of values) {
      const after = await papers(page, program, edited(job, path, value));
      if (after !== undefined && after !== before) return false;
    }
  }
  return true;
}

test('each control that edits the job changes its plan or its price', async ({ page, program }) => {
  test.setTimeout(900_000);
  for (const job of fullJobs()) expect(await papers(page, program, job)).toBeDefined();
  const kept = await page.request.post(`${program.address}/api/jobs`, { data: { text: JSON.stringify(fullJobs()[0]), what: 'trial' } });
  const { id } = (await kept.json()) as { id: number };
  const found = new Map<string, Control>();
  for (const screen of ['measure', 'choose']) {
    await page.goto(`${program.address}/job/${id}/${screen}`);
    await expect(page.locator('main [name*="."]').first()).toBeAttached();
    await page.waitForLoadState('networkidle');
    for (const control of await controls(page)) found.set(control.path, control);
  }
  expect(found.size).toBeGreaterThan(100);
  const idle: string[] = [];
  for (const control of found.values()) if (await isIdle(page, program, control)) idle.push(control.path);
  expect(idle).toEqual([]);
});
