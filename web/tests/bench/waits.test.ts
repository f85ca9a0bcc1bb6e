// How long one waits before the pages: not a test of limits, which depend on the machine, but the
// figures of docs/benchmarks.md. npm run measure
import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Server, kDesktop, open_browser, settled } from '../browser/bench';

const server = new Server();
let browser: Browser;
beforeAll(async () => {
  await server.start();
  browser = await open_browser();
});
afterAll(async () => {
  await browser.close();
  await server.remove();
});

const at = (share: number, values: number[]) => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? 0;
const say = (what: string, values: number[]) => console.log(`${what}: half ${at(0.5, values).toFixed(0)} ms, p95 ${at(0.95, values).toFixed(0)} ms, n ${values.length}`);

async function fresh(path: string): Promise<Page> {
  const page = await (await browser.newContext({ ...kDesktop, serviceWorkers: 'block' })).newPage();
  await page.goto(server.address + path);
  return page;
}

it('sizes', () => {
  const assets = new URL('../../dist/assets/', import.meta.url);
  for (const name of readdirSync(fileURLToPath(assets))) {
    console.log(`${name.replace(/-[\w-]{8}\./, '.')}: ${(gzipSync(readFileSync(new URL(name, assets)), { level: 9 }).length / 1000).toFixed(1)} kB gzipped`);
  }
});

it('first paint of the piece', async () => {
  const [paints, solids] = [[] as number[], [] as number[]];
  for (let turn = 0; turn < 6; turn++) {
    const page = await fresh('/c/study_wall');
    await settled(page, 'piece');
    await page.waitForSelector('.figures dd');
    const [paint, drawn] = await page.evaluate(() => [performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0, performance.now()]);
    paints.push(paint!);
    solids.push(drawn!);
    await page.context().close();
  }
  say('first paint', paints);
  say('piece with figures and solids drawn', solids);
  expect(paints.length).toBe(6);
});

/** Steps the bay of the wall, which changes most of its 90 parts, and waits for what follows. */
async function step(page: Page, up: boolean): Promise<{ figures: number; solids: number }> {
  return page.evaluate(async (larger) => {
    const stage = document.querySelector<HTMLElement>('.stage');
    const mass = () => document.querySelector('aside .pairs')?.textContent + (document.querySelector('.figures')?.textContent ?? '');
    const [was, drawn] = [mass(), stage?.dataset['loaded'] ?? ''];
    const began = performance.now();
    document.querySelector<HTMLButtonElement>(`button[aria-label="Bay ${larger ? 'larger' : 'smaller'}"]`)?.click();
    const until = async (there: () => boolean) => {
      while (!there() && performance.now() - began < 10000) await new Promise((next) => requestAnimationFrame(next));
      return performance.now() - began;
    };
    const [figures, solids] = await Promise.all([until(() => mass() !== was), until(() => (stage?.dataset['loaded'] ?? '') !== drawn)]);
    return { figures, solids };
  }, up);
}

it('from an edit to fresh figures and solids', async () => {
  const page = await fresh('/c/study_wall');
  await settled(page, 'piece');
  await page.waitForSelector('button[aria-label="Bay larger"]');
  const waits: Array<{ figures: number; solids: number }> = [];
  for (let turn = 0; turn < 24; turn++) {
    waits.push(await step(page, turn % 8 < 5));
    await page.waitForTimeout(700);
  }
  say('edit to fresh figures', waits.map((one) => one.figures));
  say('edit to fresh solids', waits.map((one) => one.solids));
  await page.context().close();
});

it('turning 90 parts', async () => {
  const page = await fresh('/c/study_wall');
  await settled(page, 'piece');
  await page.waitForSelector('.stage[data-loaded]');
  await page.focus('.stage');
  const frames = await page.evaluate(async () => {
    const stage = document.querySelector<HTMLElement>('.stage');
    const times: number[] = [];
    for (let turn = 0; turn < 60; turn++) {
      const began = performance.now();
      const drawn = stage?.dataset['drawn'];
      stage?.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true }));
      while (stage?.dataset['drawn'] === drawn && performance.now() - began < 2000) await new Promise((next) => requestAnimationFrame(next));
      times.push(Number(stage?.dataset['took'] ?? 0));
    }
    return times;
  });
  say('a frame of 90 parts, software drawing', frames);
  await page.context().close();
});
