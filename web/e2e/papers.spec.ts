/** What is taken along from the app has the bytes that the command line writes. */

import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PROGRAM, begin, expect, faults, test } from './program';

const FILES: [label: string, name: string, asked: string[]][] = [
  ['Workbook, .xlsx', 'heron-house.xlsx', ['--to', 'xlsx']],
  ['Order, .csv', 'heron-house-order.csv', ['--to', 'csv']],
  ['Cut list, .csv', 'heron-house-cut-list.csv', ['--to', 'csv', '--table', 'cut-list']],
  ['Price, .csv', 'heron-house-price.csv', ['--to', 'csv', '--table', 'price']],
  ['Drawing, .dxf', 'heron-house.dxf', ['--to', 'dxf']],
  ['Roof in space, .glb', 'heron-house.glb', ['--to', 'gltf']],
  ['Roof in plan, .geojson', 'heron-house.geojson', ['--to', 'geojson']],
  ['Roof surfaces, .city.json', 'heron-house.city.json', ['--to', 'cityjson']],
  ['Whole plan, .json', 'heron-house-plan.json', ['--to', 'json']],
];

const BOOKS: [label: string, name: string, part: string[]][] = [
  ['For the crew', 'heron-house-crew.pdf', ['--part', 'crew']],
  ['For the owner', 'heron-house-owner.pdf', ['--part', 'owner']],
];

test('every file and book that is downloaded is the one that the command line writes', async ({ page, program }) => {
  test.setTimeout(300_000);
  await begin(page, program, 'An L with a gabled wing');
  await page.getByRole('link', { name: 'Papers and files' }).click();
  expect(await faults(page)).toEqual([]);
  const download = async (press: () => Promise<void>) => {
    const [download] = await Promise.all([page.waitForEvent('download'), press()]);
    const file = join(program.data, download.suggestedFilename());
    await download.saveAs(file);
    return { name: download.suggestedFilename(), bytes: readFileSync(file), file };
  };
  const job = (await download(() => page.getByRole('link', { name: 'Save as a job file' }).click())).file;
  // The example has what has no price, and says so with another status.
  const run = (command: string, asked: string[]) => {
    const out = join(program.data, 'of-the-command-line');
    try {
      execFileSync(PROGRAM, [command, job, ...asked, '--out', out], { stdio: 'ignore' });
    } catch (error) {
      expect((error as { status: number }).status).toBe(1);
    }
    return readFileSync(out);
  };
  for (const [label, name, asked] of FILES) {
    const got = await download(() => page.getByRole('button', { name: `Download: ${label}` }).click());
    expect(got.name).toBe(name);
    expect(got.bytes.equals(run('export', asked)), label).toBe(true);
  }
  await page.getByLabel('Language').selectOption('es');
  await page.getByLabel('Measures').selectOption('metric');
  await page.getByLabel('Paper').selectOption('a4');
  for (const [label, name, part] of BOOKS) {
    const got = await download(() => page.getByRole('button', { name: `Download: ${label}` }).click());
    expect(got.name).toBe(name);
    expect(got.bytes.equals(run('book', [...part, '--language', 'es', '--units', 'metric', '--paper', 'a4'])), label).toBe(true);
  }
});

test('what cannot be made is told beside it, and what takes long is stopped', async ({ page, program }) => {
  await begin(page, program, 'Nothing: draw my own');
  await page.getByRole('link', { name: 'Papers and files' }).click();
  await page.getByRole('button', { name: 'Download: For the crew' }).click();
  await expect(page.getByRole('alert')).toContainText('cannot be planned');
  await page.route(/export\/xlsx/, (route) => setTimeout(() => void route.continue().catch(() => {}), 20_000));
  await page.getByRole('button', { name: 'Download: Workbook' }).click();
  await page.getByRole('button', { name: 'Stop: Workbook' }).click();
  await expect(page.getByRole('button', { name: 'Download: Workbook' })).toBeVisible();
  await expect(page.getByRole('alert')).toHaveCount(0);
});
