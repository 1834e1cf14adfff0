import { defineConfig } from '@playwright/test';

// As root Chromium needs --no-sandbox, which Playwright adds itself; the rest keeps it from calling home, and draws 3D in software.
const quiet = ['--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-quic'];
const software = ['--use-gl=angle', '--use-angle=gl-egl', '--ignore-gpu-blocklist'];

export default defineConfig({
  testDir: 'e2e',
  workers: 1,
  timeout: 90_000,
  // Lettering comes with the app, but its edges are smoothed a little otherwise from machine to machine. One figure that
  // changes is more than 50 pixels.
  expect: { timeout: 15_000, toHaveScreenshot: { maxDiffPixels: 50, threshold: 0.2, animations: 'disabled' } },
  snapshotPathTemplate: 'e2e/pictures/{arg}{ext}',
  reporter: 'line',
  use: {
    viewport: { width: 1360, height: 900 },
    trace: 'retain-on-failure',
    launchOptions: { executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: [...quiet, ...software] },
  },
});
