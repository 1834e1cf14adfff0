import { begin, expect, faults, test } from './program';

interface View {
  drawNow(): void;
  context: WebGL2RenderingContext;
  drawCalls: number;
  pieces: number;
}

test('every unit is drawn in space, in few calls, and laid course by course', async ({ page, program }) => {
  await begin(page, program, 'An L with a gabled wing');
  await page.getByRole('link', { name: 'Lay out' }).click();
  await page.getByRole('link', { name: 'The whole roof, in space' }).click();
  await page.waitForFunction(() => 'roof3d' in window);
  expect(await faults(page)).toEqual([]);
  const look = () =>
    page.evaluate(() => {
      const view = (window as unknown as { roof3d: View }).roof3d;
      view.drawNow();
      const { context: gl } = view;
      const [width, height] = [gl.drawingBufferWidth, gl.drawingBufferHeight];
      const pixels = new Uint8Array(width * height * 4);
      gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, pixels);
      const shades = new Set<number>();
      let sum = 0;
      for (let at = 0; at < pixels.length; at += 4) {
        shades.add((pixels[at] ?? 0) >> 3);
        sum += pixels[at] ?? 0;
      }
      return { shades: shades.size, sum, calls: view.drawCalls, pieces: view.pieces };
    });
  const whole = await look();
  expect(whole.shades).toBeGreaterThan(8);
  expect(whole.calls).toBeLessThan(100);
  await page.getByRole('slider', { name: /^Laid so far/ }).fill('0');
  const bare = await look();
  expect(bare.sum).not.toBe(whole.sum);
  await expect(page.getByText('The bare deck')).toBeVisible();
  await page.getByRole('slider', { name: /^Laid so far/ }).fill('100000');
  await page.getByRole('slider', { name: /^Cut through/ }).fill('50');
  const half = (await look()).sum;
  expect(half).not.toBe(whole.sum);
  for (const layer of ['caps', 'metal', 'underlayment']) {
    const before = (await look()).sum;
    await page.getByLabel(layer, { exact: true }).uncheck();
    expect((await look()).sum, layer).not.toBe(before);
  }
  await page.getByRole('img', { name: /pieces on/ }).press('ArrowLeft');
  // Along an eave, and back.
  const afar = (await look()).sum;
  await page.getByRole('combobox', { name: /^Eave/ }).selectOption({ label: 'house, south' });
  const middle = (await look()).sum;
  await page.getByRole('slider', { name: /^Along it/ }).fill('0');
  expect(new Set([afar, middle, (await look()).sum]).size).toBe(3);
  await page.getByRole('combobox', { name: /^Eave/ }).selectOption({ label: 'from afar' });
  await expect(page.getByRole('slider', { name: /^Along it/ })).toHaveCount(0);
});

test('a dormer and a chimney are added on the screen and measured', async ({ page, program }) => {
  await begin(page, program, 'A plain gable');
  await page.getByRole('button', { name: '+ dormer' }).click();
  await expect(page.locator('path.line.valley')).toHaveCount(2);
  await page.getByRole('button', { name: '+ chimney' }).click();
  const sheet = page.getByRole('group', { name: /^Plan of the roof/ });
  await sheet.press('Enter');
  await expect(page.locator('path.line.opening')).not.toHaveCount(0);
  await page.locator('summary', { hasText: 'chimney' }).click();
  await page.getByLabel('width', { exact: true }).last().fill('42 in');
  await page.getByLabel('width', { exact: true }).last().press('Enter');
  await expect(page.getByRole('status').first()).toContainText('revision 4');
  expect(await faults(page)).toEqual([]);
});

/** Short words that only English has. */
const ENGLISH = /\b(the|of|and|with|from|is|are|was|to|for|or|not|at|by|on|this|that|which|absent)\b/i;
/** Titles of what was published stay as they are. */
const TITLES = /Copper Flashings: A Manual, Copper and Brass Research Association|A Treatise on Architecture and Building Construction/g;

test('the screens speak Spanish, to the last field', async ({ page, program }) => {
  test.setTimeout(240_000);
  await begin(page, program, 'A roof with chimney, skylight and pipes');
  await page.getByRole('button', { name: 'Español' }).click();
  const job = page.url().replace(/\/\w+$/, '');
  const left = () =>
    page.evaluate(() => {
      const words = [...document.querySelectorAll('main *, header *')].filter((one) => !one.closest('[lang=en], style, script'));
      return words.flatMap((one) => [...one.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE).map((node) => node.textContent ?? '').concat(one.getAttribute('aria-label') ?? '', one.getAttribute('title') ?? ''));
    });
  for (const screen of ['measure', 'choose', 'layout', 'see', 'order', 'price', 'price?show=proposal', 'papers']) {
    await page.goto(`${job}/${screen}`);
    await page.waitForLoadState('networkidle');
    if (screen === 'order') await page.getByRole('button', { name: 'Mostrar' }).click();
    await page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)));
    // The words come when they are asked for.
    await expect.poll(async () => (await left()).filter((text) => ENGLISH.test(text.replaceAll(TITLES, ''))), { message: screen }).toEqual([]);
    expect(await faults(page), screen).toEqual([]);
  }
  await expect(page.locator('html')).toHaveAttribute('lang', 'es-US');
});

test('each screen holds in the dark, on a phone and without motion', async ({ page, program }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.setViewportSize({ width: 360, height: 740 });
  await begin(page, program, 'A roof with chimney, skylight and pipes');
  await page.getByRole('button', { name: 'Dark' }).click();
  const job = page.url().replace(/\/\w+$/, '');
  for (const screen of ['measure', 'choose', 'layout', 'see', 'check', 'order']) {
    await page.goto(`${job}/${screen}`);
    await expect(page.locator('main h1')).toBeAttached();
    await expect(page.getByText(/^(One moment|Nothing is (laid|checked|counted))/)).toHaveCount(0);
    expect(await faults(page), screen).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), screen).toBe(0);
  }
});
