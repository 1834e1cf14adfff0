import { readFileSync } from 'node:fs';
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { PROGRAM, begin, expect, faults, test } from './program';

test('the covering is changed and everything follows', async ({ page, program }) => {
  await begin(page, program, 'An L with a gabled wing');
  await page.getByRole('link', { name: 'Choose' }).click();
  const pieces = page.locator('.totals dd').first();
  await expect(pieces).not.toBeEmpty();
  const before = await pieces.textContent();
  expect(await faults(page)).toEqual([]);
  await page.getByRole('radio', { name: /Natural slate/ }).check();
  await expect(pieces).not.toHaveText(before ?? '');
  await expect(page.getByRole('heading', { name: 'The sheet of this covering' })).toBeVisible();
  await expect(page.getByRole('status').first()).toContainText('revision 2');
  await page.getByRole('button', { name: 'Plan every covering' }).click();
  await expect(page.getByRole('button', { name: /^Take it/ })).toHaveCount(4);
  expect(await faults(page)).toEqual([]);
  await page.getByRole('button', { name: /^Take it: Wood shingle/ }).click();
  await expect(pieces).toHaveText(before ?? '');
});

test('a piece is pointed at, and the arrow keys go on from it', async ({ page, program }) => {
  await begin(page, program, 'A hip roof');
  await page.getByRole('link', { name: 'Lay out' }).click();
  const sheet = page.getByRole('group', { name: /arrow keys/ });
  const box = await sheet.boundingBox();
  if (!box) throw new Error('no sheet');
  await expect(page.getByText('Point at a piece')).toBeVisible();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  const course = page.getByRole('row', { name: /^Course \d/ });
  await expect(course).toBeVisible();
  const before = await course.textContent();
  await sheet.press('ArrowUp');
  await expect(course).not.toHaveText(before ?? '');
  expect(await faults(page)).toEqual([]);
});

test('a cut piece tells its line of the cut list, and which pieces come from one unit', async ({ page, program }) => {
  await begin(page, program, 'An L with a gabled wing');
  await page.getByRole('link', { name: 'Lay out' }).click();
  await page.getByRole('group', { name: /arrow keys/ }).press('ArrowUp');
  // The first piece is cut to the hip, so its offcut or itself is told of.
  await expect(page.getByRole('row', { name: /^In the cut list \d+ \(bin/ })).toBeVisible();
  await expect(page.getByRole('row', { name: /^From one unit/ })).toBeVisible();
  await page.locator('summary', { hasText: 'Units that give several pieces' }).click();
  await expect(page.getByRole('listitem').filter({ hasText: /^\d+ × \(\d+ \(bin .* \+ / }).first()).toBeVisible();
  expect(await faults(page)).toEqual([]);
});

test('planning is stopped, told of, and taken up again', async ({ page, program }) => {
  await begin(page, program, 'A plain gable');
  await expect(page.getByRole('status')).toContainText('revision 1');
  await page.route('**/api/plan', (route) => setTimeout(() => void route.continue().catch(() => {}), 8_000));
  await page.getByLabel('Pitch, Side 1').fill('9/12');
  await page.getByLabel('Pitch, Side 1').press('Enter');
  await page.getByRole('button', { name: 'Stop' }).click();
  await expect(page.getByRole('alert')).toContainText('of an earlier step');
  await page.unroute('**/api/plan');
  await page.getByRole('button', { name: 'Plan it' }).click();
  await expect(page.getByRole('alert')).toHaveCount(0);
});

test('a finding is followed to its place and cured', async ({ page, program }) => {
  await begin(page, program, 'A plain gable');
  await page.getByRole('link', { name: 'Choose' }).click();
  await page.locator('summary', { hasText: 'Nails' }).click();
  const length = page.locator('#fastener-length');
  await length.fill('3/4 in');
  await length.press('Enter');
  await page.getByRole('link', { name: 'Check', exact: true }).click();
  const finding = page.locator('#nail-too-short');
  await expect(finding).toContainText('Remedy:');
  expect(await faults(page)).toEqual([]);
  await finding.getByRole('link', { name: /^On the roof/ }).first().click();
  await expect(page.locator('path.piece')).toBeVisible();
  await page.goBack();
  await finding.getByRole('link', { name: 'Cure it: Choose' }).click();
  await length.fill('2 in');
  await length.press('Enter');
  await page.getByRole('link', { name: 'Check', exact: true }).click();
  await expect(page.locator('details #nail-too-short')).toHaveCount(1);
});

test('a finding is accepted with a reason, and no longer', async ({ page, program }) => {
  await begin(page, program, 'A plain gable');
  await page.getByRole('link', { name: 'Check', exact: true }).click();
  const finding = page.locator('ul.findings li').first();
  const id = (await finding.getAttribute('id')) ?? '';
  await finding.getByRole('button', { name: 'Accept with a reason' }).click();
  await finding.getByLabel(/^Why this is accepted/).fill('Looked at on the scaffold.');
  await finding.getByRole('button', { name: 'Accept', exact: true }).click();
  await expect(page.locator(`section[aria-labelledby=silenced] #${id}`)).toContainText('Looked at on the scaffold.');
  await page.getByRole('button', { name: 'No longer accept' }).click();
  await expect(page.locator('section[aria-labelledby=silenced]')).toHaveCount(0);
});

test('the order leads to the places it counts, and prints', async ({ page, program }) => {
  await begin(page, program, 'An L with a gabled wing');
  await page.getByRole('link', { name: 'Order' }).click();
  expect(await faults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Show where everything is counted' }).click();
  await page.getByRole('link', { name: 'house, south' }).first().click();
  await expect(page.getByRole('group', { name: /arrow keys/ })).toBeVisible();
  await page.goBack();
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByRole('heading', { name: 'Order: Heron house' })).toBeVisible();
  await expect(page.getByRole('navigation')).toBeHidden();
  await expect(page.locator('.fold').first()).toBeVisible();
  await expect(page.getByRole('button', { name: 'Print' })).toHaveCount(0);
});

test('the saved job file gives the same plan on the command line, byte for byte', async ({ page, program }) => {
  await begin(page, program, 'An L with a gabled wing');
  await page.getByLabel('Pitch, Side 1').fill('9/12');
  await page.getByLabel('Pitch, Side 1').press('Enter');
  await expect(page.getByRole('status')).toContainText('revision 2');
  await page.getByRole('link', { name: 'Papers and files' }).click();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('link', { name: 'Save as a job file' }).click()]);
  expect(download.suggestedFilename()).toBe('heron-house.json');
  const file = join(program.data, 'saved.json');
  await download.saveAs(file);
  const printed = execFileSync(PROGRAM, ['plan', file, '--format', 'json'], { maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'ignore'] });
  const shown = await page.request.get(`${program.address}/api/jobs/1/revisions/2/plan.json`);
  expect((await shown.body()).equals(printed)).toBe(true);
  expect(JSON.parse(readFileSync(file, 'utf8')).block[0].edges[0].eave).toBe('9/12');
});
