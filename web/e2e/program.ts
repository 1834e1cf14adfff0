/** The real program, started and killed as a person or a power cut would. */

import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Page, test as base, expect } from '@playwright/test';
import axe from 'axe-core';

export const PROGRAM = process.env.HEADLAP ?? join(import.meta.dirname, '../../target/debug/headlap');

export class Program {
  readonly data = mkdtempSync(join(tmpdir(), 'headlap-'));
  address = '';
  #child: ChildProcess | undefined;

  /** On the port it had before, if it had one. */
  async start(): Promise<void> {
    const port = new URL(this.address || 'http://127.0.0.1:0').port || '0';
    const child = (this.#child = spawn(PROGRAM, ['serve', '--no-open', '--port', port, '--data', this.data]));
    this.address = await new Promise((open, fail) => {
      let said = '';
      child.stderr?.on('data', (more: Buffer) => {
        said += more.toString();
        const [, address] = /open at (http:\S+?)\/ /.exec(said) ?? [];
        if (address) open(address);
      });
      child.on('error', fail);
      child.on('exit', (code) => fail(new Error(`ended with ${code}: ${said}`)));
    });
  }

  async kill(): Promise<void> {
    const child = this.#child;
    if (!child || child.exitCode !== null) return;
    const ended = new Promise((done) => child.once('exit', done));
    child.kill('SIGKILL');
    await ended;
  }
}

export const test = base.extend<{ program: Program }>({
  program: async ({}, use) => {
    const program = new Program();
    await program.start();
    await use(program);
    await program.kill();
  },
});

export { expect };

/** Begins a job from an example, or from nothing. */
export async function begin(page: Page, program: Program, from: string): Promise<void> {
  await page.goto(program.address);
  await page.getByRole('radio', { name: from }).check();
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await expect(page.getByRole('link', { name: 'Measure' })).toBeVisible();
}

/** The house of examples/ell.toml, walked round by typed lengths. */
const ELL: [string, string][] = [
  ['ArrowRight', '44 3-1/2'],
  ['ArrowUp', "24' 9\""],
  ['ArrowLeft', "26' 11-1/2\""],
  ['ArrowUp', '11 5'],
  ['ArrowLeft', "17' 4\""],
];

export async function drawEll(page: Page): Promise<void> {
  const field = page.getByLabel('Length', { exact: true });
  for (const [index, [arrow, length]] of ELL.entries()) {
    await field.press(arrow);
    await field.pressSequentially(length);
    await field.press('Enter');
    await expect(page.getByRole('listitem').filter({ hasText: length })).toHaveCount(1);
    await expect(page.locator('.legs li')).toHaveCount(index < 1 ? 1 : index + 2);
  }
  await field.press('Enter');
}

/** What axe finds, on the rules of WCAG 2.2 AA. */
export async function faults(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    const { violations } = await axe.run(document);
    return violations.flatMap((violation) => violation.nodes.map((node) => `${violation.id}: ${node.target.join(' ')} ${node.failureSummary ?? ''}`));
  });
}
