import { defineConfig } from '@playwright/test';
import tests from './playwright.config';

/** Speed is measured apart from the tests, on a quiet machine: `npm run bench`. */
export default defineConfig(tests, { testDir: 'bench', timeout: 300_000, reporter: 'list' });
