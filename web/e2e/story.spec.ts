/** The whole work on the real program: measure, choose, check, cure, order, price; killed in mid-edit, and saved. */

import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { PROGRAM, drawEll, expect, test } from './program';

test('from typed lengths to the order, through a power cut, to the same plan on the command line', async ({ page, program }) => {
  test.setTimeout(180_000);
  const kept = (version: number) => expect(page.getByRole('status').first()).toContainText(`revision ${version}`);

  // Measure: the L of typed lengths, gabled, with a dormer and a chimney.
  await page.goto(program.address);
  await page.getByLabel('Name of the job').fill('Plover house');
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await drawEll(page);
  await kept(2);
  for (const side of [2, 5]) await page.getByLabel(`Is, Side ${side}`).selectOption('gable');
  await page.getByRole('button', { name: '+ dormer' }).click();
  await page.getByRole('button', { name: '+ chimney' }).click();
  const sheet = page.getByRole('group', { name: /^Plan of the roof/ });
  const box = await sheet.boundingBox();
  if (!box) throw new Error('no sheet');
  await page.mouse.click(box.x + box.width * 0.62, box.y + box.height * 0.5);
  await expect(page.locator('path.line.opening')).not.toHaveCount(0);
  await expect(page.locator('summary', { hasText: 'chimney' })).toBeVisible();
  await kept(6);

  // Choose: another covering, and nails that are too short for it.
  await page.getByRole('link', { name: 'Choose' }).click();
  await page.getByRole('radio', { name: /Natural slate/ }).check();
  await page.locator('summary', { hasText: 'Nails' }).click();
  const length = page.locator('[name="fastener.length"]');
  await length.fill('3/4 in');
  await length.press('Enter');
  await kept(8);

  // Check: the finding leads to its place, and to its cure.
  await page.getByRole('link', { name: 'Check', exact: true }).click();
  const finding = page.locator('ul.findings #nail-too-short');
  await finding.getByRole('link', { name: /^On the roof/ }).first().click();
  await expect(page.locator('path.piece')).toBeVisible();
  await page.goBack();
  await finding.getByRole('link', { name: 'Cure it: Choose' }).click();

  // The program is killed while the cure is typed, and goes on where it was.
  await program.kill();
  await length.fill('2 in');
  await length.press('Enter');
  await expect(page.getByRole('alert')).toContainText('does not answer');
  await program.start();
  await kept(9);
  await page.reload();
  await expect(length).toHaveValue('2 in');
  await page.getByRole('link', { name: 'Check', exact: true }).click();
  await expect(page.locator('details #nail-too-short')).toHaveCount(1);

  // Order, as it is printed.
  await page.getByRole('link', { name: 'Order' }).click();
  await expect(page.getByRole('row', { name: /slate/i }).first()).toBeVisible();
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByRole('heading', { name: 'Order: Plover house' })).toBeVisible();
  await expect(page.getByRole('navigation')).toBeHidden();
  const paper = await page.pdf();
  expect(paper.subarray(0, 5).toString()).toBe('%PDF-');
  await page.emulateMedia({ media: null });

  // The saved file plans to the same bytes.
  await page.getByRole('link', { name: 'Papers and files' }).click();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('link', { name: 'Save as a job file' }).click()]);
  const file = join(program.data, download.suggestedFilename());
  await download.saveAs(file);
  const printed = execFileSync(PROGRAM, ['plan', file, '--format', 'json'], { maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'ignore'] });
  const shown = await page.request.get(`${program.address}/api/jobs/1/revisions/9/plan.json`);
  expect((await shown.body()).equals(printed)).toBe(true);
});
