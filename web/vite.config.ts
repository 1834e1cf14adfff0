import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

/** The program answers only its own pages: while the front end is worked on, requests are passed on in its name. */
const PROGRAM = process.env.PROGRAM ?? 'http://127.0.0.1:7412';
const api = { target: PROGRAM, changeOrigin: true, headers: { origin: PROGRAM } };

export default defineConfig({
  plugins: [svelte()],
  build: { outDir: 'dist/app', emptyOutDir: true, target: 'es2022', modulePreload: { polyfill: false }, chunkSizeWarningLimit: 700 },
  server: { proxy: { '/api': api } },
  preview: { proxy: { '/api': api } },
  test: { include: ['test/**/*.test.ts'], environment: 'node' },
});
