import { begin, drawEll, expect, faults, test } from './program';

test('a house is drawn from typed lengths with the keyboard alone, and has the figures of the job file', async ({ page, program }) => {
  await begin(page, program, 'Nothing: draw my own');
  expect(await faults(page)).toEqual([]);
  await drawEll(page);
  for (const side of [2, 5]) await page.getByLabel(`Is, Side ${side}`).selectOption('gable');
  for (const side of [1, 3, 4, 6]) {
    await page.getByLabel(`Pitch, Side ${side}`).fill('10/12');
    await page.getByLabel(`Pitch, Side ${side}`).press('Enter');
  }
  // Plan area times √(1 + (10/12)²): (44' 3-1/2" × 24' 9" + 17' 4" × 11' 5") × 1.3017 = 1684.6 sq ft.
  await expect(page.locator('.totals')).toContainText('16.85 squares');
  await expect(page.locator('.totals')).toContainText('Planes4');
  await expect(page.locator('path.line.valley')).toHaveCount(1);
  await expect(page.getByRole('status')).toContainText('Kept');
  expect(await faults(page)).toEqual([]);
});

test('a side that is typed anew moves its neighbours, and is undone and done again', async ({ page, program }) => {
  await begin(page, program, 'A plain gable');
  const length = page.getByLabel('Length, Side 1');
  await expect(length).toHaveValue("41' 7\"");
  await length.fill('44 6');
  await length.press('Enter');
  await expect(page.getByLabel('Length, Side 3')).toHaveValue("44' 6\"");
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(length).toHaveValue("41' 7\"");
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect(length).toHaveValue("44' 6\"");
  await length.fill('24 1/2');
  await length.press('Enter');
  await expect(page.getByRole('alert')).toContainText('Type feet and inches');
});

test('a corner is dragged, and the roof follows', async ({ page, program }) => {
  await begin(page, program, 'A hip roof');
  const corner = page.getByRole('button', { name: /^Corner 3/ });
  const before = await corner.getAttribute('aria-label');
  await expect(page.locator('path.line.hip')).toHaveCount(4);
  const box = await corner.boundingBox();
  if (!box) throw new Error('the corner is not on the screen');
  const hip = await page.locator('path.line.hip').first().getAttribute('d');
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + 60, box.y - 50, { steps: 5 });
  await page.mouse.up();
  await expect(corner).not.toHaveAttribute('aria-label', before ?? '');
  await expect(page.locator(`path.line.hip[d="${hip}"]`)).toHaveCount(0);
  await expect(page.getByRole('status')).toContainText('revision 2');
  await corner.focus();
  await page.keyboard.press('Shift+ArrowRight');
  await expect(page.getByRole('status')).toContainText('revision 3');
});

test('an outline is clicked on the sheet', async ({ page, program }) => {
  await begin(page, program, 'Nothing: draw my own');
  const sheet = page.getByRole('group', { name: /^Plan of the roof/ });
  const box = await sheet.boundingBox();
  if (!box) throw new Error('no sheet');
  const corners = [[0.2, 0.7], [0.7, 0.7], [0.7, 0.3], [0.2, 0.3]] as const;
  for (const [index, [x, y]] of corners.entries()) {
    await page.mouse.move(box.x + box.width * x, box.y + box.height * y);
    await page.mouse.click(box.x + box.width * x, box.y + box.height * y);
    await expect(page.locator('circle.dot')).toHaveCount(index + 1);
  }
  await page.getByRole('button', { name: 'Close the outline' }).click();
  await expect(page.locator('path.line.hip')).toHaveCount(4);
});

test('mistakes are told in words beside the drawing', async ({ page, program }) => {
  await begin(page, program, 'A plain gable');
  await page.getByLabel('Pitch, Side 1').fill('89 deg');
  await page.getByLabel('Pitch, Side 1').press('Enter');
  await expect(page.locator('.said.error')).toBeVisible();
  expect(await faults(page)).toEqual([]);
});

test('a plane out of square is typed from its tapes: both rakes and a diagonal', async ({ page, program }) => {
  await begin(page, program, 'Nothing: draw my own');
  await page.getByRole('button', { name: '+ plane' }).click();
  await page.locator('summary', { hasText: 'plane' }).last().click();
  const type = async (key: string, value: string) => {
    const field = page.locator(`[name="plane[0].${key}"]`);
    await field.fill(value);
    await field.press('Enter');
  };
  // Lower left, lower right, upper right, upper left: (0, 0), (30, 0), (31, 17), (0, 16) ft on the slope. By Pythagoras the
  // right rake is 17.029 ft, the top 31.016 ft, the diagonals 35.355 and 34.000 ft.
  for (const [key, value] of [['right_rake', '17.029 ft'], ['top', '31.016 ft'], ['diagonal_left', '35.355 ft'], ['diagonal_right', '34 ft']] as const) await type(key, value);
  await expect(page.getByText('plane is out of square')).toBeVisible();
  // Half of the diagonals' cross product: (31 × 16 + 30 × 17) / 2 = 503 sq ft.
  await expect(page.locator('.totals')).toContainText('5.03 squares');
  expect(await faults(page)).toEqual([]);
});

test('broken files are refused in words, and what was left out of a good one is told', async ({ page, program }) => {
  await page.goto(program.address);
  const bring = async (name: string, text: string) => {
    await page.getByRole('radio', { name: /^A file/ }).check();
    await page.locator('input[type=file]').setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
    await page.getByRole('button', { name: 'Begin', exact: true }).click();
  };
  const square = '[[0,0],[40,0],[40,20],[0,20],[0,0]]';
  for (const [name, text, says] of [
    ['house.txt', 'x', 'does not tell what kind of file it is'],
    ['house.toml', 'format = ', 'line 1'],
    ['house.json', '{"format": 1, "name": ', 'line 1'],
    ['house.dxf', 'nothing', 'Save the drawing again'],
    ['house.geojson', `{"type":"Polygon","coordinates":[${square}]`, 'not JSON as it should be'],
  ] as const) {
    await bring(name, text);
    await expect(page.getByRole('alert')).toContainText(says);
    expect(await page.getByRole('alert').textContent()).not.toMatch(/--\w/);
  }
  await page.getByLabel(/^Unit of the file/).selectOption('ft');
  await bring('house.geojson', `{"type":"Polygon","coordinates":[${square.replace('[40,0]', '[20,0],[40,0.01]')}]}`);
  await expect(page.getByText('What was moved, rounded or left out of the file')).toBeVisible();
  expect(await faults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  await expect(page.getByText('What was moved, rounded or left out of the file')).toHaveCount(0);
});
