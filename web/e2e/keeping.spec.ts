import { begin, expect, faults, test } from './program';

test('the empty list teaches, and a job begun is in it', async ({ page, program }) => {
  await page.goto(program.address);
  await expect(page.getByRole('heading', { name: 'No job yet' })).toBeVisible();
  expect(await faults(page)).toEqual([]);
  await begin(page, program, 'An L with a gabled wing');
  await page.getByRole('link', { name: /headlap/ }).first().click();
  await expect(page.getByRole('link', { name: /Heron house/ })).toBeVisible();
  expect(await faults(page)).toEqual([]);
});

test('the program is killed in mid-edit and nothing is lost', async ({ page, program }) => {
  await begin(page, program, 'A plain gable');
  await expect(page.getByRole('status')).toContainText('revision 1');
  await program.kill();
  await page.getByLabel('Pitch, Side 1').fill('9/12');
  await page.getByLabel('Pitch, Side 1').press('Enter');
  await page.getByLabel('Overhang, Side 1').fill('18 in');
  await page.getByLabel('Overhang, Side 1').press('Enter');
  await expect(page.getByRole('alert')).toContainText('does not answer');
  await program.start();
  await expect(page.getByRole('status')).toContainText('revision 3');
  await page.reload();
  await expect(page.getByLabel('Pitch, Side 1')).toHaveValue('9/12');
  await expect(page.getByLabel('Overhang, Side 1')).toHaveValue('18 in');
});

test('of two windows neither overwrites the other', async ({ page, context, program }) => {
  await begin(page, program, 'A plain gable');
  const other = await context.newPage();
  await other.goto(page.url());
  await expect(other.getByLabel('Pitch, Side 1')).toHaveValue('8/12');
  await page.getByLabel('Pitch, Side 1').fill('9/12');
  await page.getByLabel('Pitch, Side 1').press('Enter');
  await expect(page.getByRole('status')).toContainText('revision 2');
  // The windows tell each other: the second takes over what the first kept.
  await expect(other.getByLabel('Pitch, Side 1')).toHaveValue('9/12');
  await page.route('**/api/jobs/1', (route) => (route.request().method() === 'PUT' ? setTimeout(() => void route.continue(), 1500) : route.continue()));
  await page.getByLabel('Pitch, Side 3').fill('10/12');
  await page.getByLabel('Pitch, Side 3').press('Enter');
  await other.getByLabel('Pitch, Side 3').fill('11/12');
  await other.getByLabel('Pitch, Side 3').press('Enter');
  await expect(page.getByRole('alertdialog')).toContainText('Another window has changed this job');
  expect(await faults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Keep mine over it' }).click();
  await expect(page.getByRole('status')).toContainText('revision 4');
  await page.getByRole('button', { name: 'History' }).click();
  await expect(page.getByRole('dialog').getByRole('listitem')).toHaveCount(4);
});

test('it works on a phone of 360 px', async ({ page, program }) => {
  await page.setViewportSize({ width: 360, height: 740 });
  await begin(page, program, 'A hip roof');
  expect(await faults(page)).toEqual([]);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(wide).toBe(0);
});
