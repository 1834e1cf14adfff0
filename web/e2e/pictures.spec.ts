/** Each screen as it was last looked at by eye. `npm run browser -- pictures --update-snapshots` takes them anew. */

import { type Page } from '@playwright/test';
import { type Program, expect, test } from './program';

const SCREENS = ['measure', 'choose', 'layout', 'see', 'check', 'order', 'price', 'price?show=proposal', 'papers'];
const DESK = { width: 1180, height: 820 };
const PHONE = { width: 360, height: 740 };

async function settled(page: Page): Promise<void> {
  await expect(page.locator('main h1')).toBeAttached();
  await page.waitForLoadState('networkidle');
  await page.evaluate(() => document.fonts.ready);
}

async function take(page: Page, looks: string, size: { width: number; height: number }, before: (page: Page) => Promise<void>, program: Program): Promise<void> {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.setViewportSize(size);
  await page.goto(program.address);
  await before(page);
  await settled(page);
  await expect.soft(page).toHaveScreenshot(`${looks}-jobs.png`);
  await page.locator('input[type=radio]').nth(4).check();
  await page.locator('form .main').click();
  await page.waitForURL(/measure$/);
  const job = page.url().replace(/\/\w+$/, '');
  for (const screen of SCREENS) {
    await page.goto(`${job}/${screen}`);
    if (screen === 'see') await page.waitForFunction(() => 'roof3d' in window);
    await settled(page);
    await expect.soft(page).toHaveScreenshot(`${looks}-${screen.replace(/\W+show=/, '-')}.png`);
  }
}

test('light', ({ page, program }) => take(page, 'light', DESK, async () => {}, program));
test('dark', ({ page, program }) => take(page, 'dark', DESK, (page) => page.getByRole('button', { name: 'Dark' }).click(), program));
test('phone', ({ page, program }) => take(page, 'phone', PHONE, async () => {}, program));
test('Spanish', ({ page, program }) => take(page, 'spanish', DESK, (page) => page.getByRole('button', { name: 'Español' }).click(), program));
