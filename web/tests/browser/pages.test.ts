import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { length } from '../../src/look/format';
import { kSheets } from '../../src/state/route';
import { Server, axe, complaints, demos, kDesktop, kPhone, open_browser, outside, program, settled, shots } from './bench';

const server = new Server();
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await open_browser();
});
afterAll(async () => {
  await browser?.close();
  await server.remove();
});

async function turn_to(page: Page, sheet: string): Promise<void> {
  await page.click(`.index a[href$="${sheet === 'piece' ? '' : sheet}"]:has-text("${kSheets.find((one) => one.id === sheet)?.name}")`);
  await settled(page, sheet);
}

/** The setting list and the glue-ups of the bench. */
async function bench_views(page: Page, demo: string, device: string, most: number): Promise<void> {
  for (const [name, sign] of [['Settings', '.setting.far'], ['Glue-ups', '.glue-up svg']] as const) {
    await page.click(`button:has-text("${name}")`);
    await page.waitForSelector(sign);
    expect(await page.evaluate(() => document.documentElement.scrollWidth), name).toBeLessThanOrEqual(most);
    if (demo === 'hall_cabinet') expect(await axe(page), name).toEqual([]);
    await page.screenshot({ path: join(shots, `${demo}_${name.toLowerCase()}_${device}.png`) });
  }
}

describe.each([['desktop', kDesktop], ['phone', kPhone]] as const)('on a %s', (device, settings) => {
  it.each(demos)('every sheet of %s is drawn, complains of nothing and can be used by all', async (demo) => {
    const context = await browser.newContext({ ...settings, serviceWorkers: 'block' });
    const page = await context.newPage();
    const said = complaints(page);
    const away = outside(context, server.address);
    await page.goto(`${server.address}/c/${demo}`);
    for (const { id: sheet } of kSheets) {
      await (sheet === 'piece' ? settled(page, sheet) : turn_to(page, sheet));
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(wide, `${sheet} is wider than the screen`).toBeLessThanOrEqual(settings.viewport.width);
      expect(await axe(page), sheet).toEqual([]);
      await page.screenshot({ path: join(shots, `${demo}_${sheet}_${device}.png`) });
      if (sheet === 'bench') await bench_views(page, demo, device, settings.viewport.width);
    }
    expect(said).toEqual([]);
    expect(away).toEqual([]);
    await context.close();
  });

  it('the shelf shows every commission and begins a new one from a pattern', async () => {
    const context = await browser.newContext({ ...settings, serviceWorkers: 'block' });
    const page = await context.newPage();
    const said = complaints(page);
    await page.goto(server.address);
    await settled(page, 'shelf');
    expect(await page.locator('.job').count()).toBeGreaterThanOrEqual(3);
    expect(await axe(page)).toEqual([]);
    await page.click('.patterns button:has-text("Bench")');
    await page.fill('input[required]', `Porch seat ${device}`);
    expect(await axe(page)).toEqual([]);
    await page.screenshot({ path: join(shots, `shelf_${device}.png`) });
    await page.click('button[type=submit]');
    await page.waitForURL(/\/c\/porch_seat/);
    await settled(page, 'piece');
    expect(await page.textContent('.head h1')).toBe(`Porch seat ${device}`);
    expect(said).toEqual([]);
    await context.close();
  });

  it('nothing is cut off at 360 px and in the dark', async () => {
    const context = await browser.newContext({ ...settings, viewport: { width: 360, height: 740 }, colorScheme: 'dark', serviceWorkers: 'block' });
    const page = await context.newPage();
    await page.goto(`${server.address}/c/hall_cabinet`);
    for (const { id: sheet } of kSheets) {
      await (sheet === 'piece' ? settled(page, sheet) : turn_to(page, sheet));
      expect(await page.evaluate(() => document.documentElement.scrollWidth), sheet).toBeLessThanOrEqual(360);
    }
    expect(await axe(page)).toEqual([]);
    await page.screenshot({ path: join(shots, `dark_${device}.png`) });
    await context.close();
  });
});

async function fresh(path: string): Promise<Page> {
  const page = await (await browser.newContext({ ...kDesktop, serviceWorkers: 'block' })).newPage();
  await page.goto(server.address + path);
  return page;
}

const written = (demo: string) => readFileSync(join(server.folder, `${demo}.yaml`), 'utf8');
const price_of = (page: Page) => page.locator('.figures dd').first().textContent();

describe('what the pages print', () => {
  it('is what the papers print: every length of every plan', async () => {
    let checked = 0;
    for (const demo of demos) {
      const answer = await fetch(`${server.address}/api/commissions/${demo}/plan`, { method: 'POST', body: '{}' });
      const { plan } = (await answer.json()) as { plan: { commission: { unit: 'inch' | 'mm' } } };
      const walk = (node: unknown): void => {
        if (Array.isArray(node)) node.forEach(walk);
        else if (node && typeof node === 'object') {
          const { mm, text } = node as { mm?: number; text?: string };
          if (typeof mm === 'number' && typeof text === 'string') {
            expect(length(mm, plan.commission.unit)).toBe(text);
            checked++;
          } else Object.values(node).forEach(walk);
        }
      };
      walk(plan);
    }
    expect(checked).toBeGreaterThan(1000);
  });
});

describe('a commission in work', () => {
  it('goes by keyboard alone from the shelf to another depth to the quotation', async () => {
    const page = await fresh('/');
    await settled(page, 'shelf');
    const press_until = async (arrived: () => Promise<boolean>, key = 'Tab') => {
      for (let presses = 0; presses < 120; presses++) {
        if (await arrived()) return;
        await page.keyboard.press(key);
      }
      throw new Error('the keyboard does not get there');
    };
    const at = (selector: string) => () => page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector);
    await press_until(at('a.job[href="/c/hall_cabinet"]'));
    await page.keyboard.press('Enter');
    await settled(page, 'piece');
    const before = await price_of(page);
    await page.waitForSelector('button[aria-label="Depth larger"]');
    await press_until(at('input[aria-label="Depth"]'));
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('19');
    await page.keyboard.press('Enter');
    await page.waitForFunction((was) => document.querySelector('.figures dd')?.textContent !== was, before);
    expect(written('hall_cabinet')).toContain('depth: 18');
    await page.keyboard.press('ControlOrMeta+s');
    await page.waitForSelector('.head button:has-text("Kept")');
    expect(written('hall_cabinet')).toContain('depth: 19');
    expect(written('hall_cabinet')).toContain('# A hall cabinet for a converted mill');
    await page.keyboard.press('Alt+8');
    await settled(page, 'papers');
    await press_until(at('a[download$="quotation.pdf"]'));
    const download = page.waitForEvent('download');
    await page.keyboard.press('Enter');
    const bytes = readFileSync(await (await download).path());
    expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
    await page.context().close();
  });

  it('steps a size by half a millimetre, says what it changed, and takes it back', async () => {
    const page = await fresh('/c/dining_table');
    await settled(page, 'piece');
    await page.click('button[aria-label="Depth larger"]');
    await page.waitForFunction(() => (document.querySelector('input[aria-label="Depth"]') as HTMLInputElement)?.value === '950.5');
    await page.click('.index a:has-text("Written")');
    await page.waitForSelector('.delta, section[aria-label="What this edit changed"] li');
    await page.click('button[aria-label="Undo"]');
    await page.waitForSelector('.head button:has-text("Kept")');
    await page.context().close();
  });

  it('gives the calendar as a file, and says what is missing where there is none', async () => {
    const page = await fresh('/c/hall_cabinet/calendar');
    await settled(page, 'calendar');
    const download = page.waitForEvent('download');
    await page.click('a[download$=".ics"]');
    expect(readFileSync(await (await download).path(), 'utf8')).toMatch(/^BEGIN:VCALENDAR\r\n/);
    await page.click('.week-days a');
    await page.waitForSelector('.one-card');
    await page.click('.index a:has-text("Written")');
    await page.click('.cm-content');
    await page.evaluate(() => { const line = [...document.querySelectorAll('.cm-line')].find((one) => one.textContent?.startsWith('quoted:')); const range = document.createRange(); range.selectNodeContents(line!); const picked = getSelection()!; picked.removeAllRanges(); picked.addRange(range); });
    await page.keyboard.press('Delete');
    await page.click('.index a:has-text("Calendar")');
    await page.waitForSelector('.empty:has-text("no calendar")');
    expect(await page.textContent('.empty')).toContain('quoted');
    expect(await axe(page)).toEqual([]);
    await page.context().close();
  });

  it('mends a finding with one tap, says before what that brings, and writes down what is accepted', async () => {
    const page = await fresh('/c/dining_table/findings');
    await settled(page, 'findings');
    await page.waitForSelector('p:has-text("Rail 68 mm high cannot be built")');
    const mend = page.locator('button:has-text("Write instead: rail 103.5 mm high")');
    await mend.waitFor();
    expect(await mend.textContent()).toContain('ends this');
    await mend.click();
    await page.waitForSelector('.finding:has-text("gives way when someone sits")', { state: 'detached' });
    const last = page.locator('.finding').last();
    const title = await last.locator('h3').textContent();
    await last.locator('summary').click();
    await last.locator('input').fill('Seen, and "meant so"');
    await last.locator('button:has-text("Write it down")').click();
    await page.waitForSelector('h2:has-text("Accepted")');
    expect(await page.locator('main ul').last().textContent()).toContain(title);
    expect(written('dining_table')).not.toContain('meant so');
    for (let times = 0; times < 2; times++) await page.click('button[aria-label="Undo"]');
    await page.waitForSelector('.finding:has-text("gives way when someone sits")');
    await page.context().close();
  });

  it('ticks a setting with all its steps', async () => {
    const page = await fresh('/c/hall_cabinet/bench');
    await settled(page, 'bench');
    await page.click('button:has-text("Settings")');
    const first = page.locator('.setting-row').first();
    await first.locator('input').check();
    await page.waitForSelector('.setting-row.done');
    await page.reload();
    await settled(page, 'bench');
    await page.click('button:has-text("Settings")');
    await page.waitForSelector('.setting-row.done');
    await page.locator('.setting-row').first().locator('input').uncheck();
    await page.context().close();
  });

  it('keeps the last good plan, marked old, while the text has a mistake, and shows where', async () => {
    const page = await fresh('/c/dining_table/text');
    await settled(page, 'text');
    const before = await price_of(page);
    await page.click('.cm-content');
    await page.keyboard.press('ControlOrMeta+Home');
    await page.keyboard.type('commision: x\n');
    await page.waitForSelector('.mistakes button:has-text("commision")');
    expect(await page.textContent('.mistakes')).toContain('commision');
    expect(await page.textContent('.figures dt')).toBe('Price, old');
    expect(await price_of(page)).toBe(before);
    await page.waitForSelector('.cm-lintRange-error');
    await page.keyboard.press('ControlOrMeta+z');
    await page.waitForSelector('.mistakes button', { state: 'detached' });
    await page.context().close();
  });

  it('shows both texts when two write, and loses neither', async () => {
    const [mine, theirs] = [await fresh('/c/dining_table/text'), await fresh('/c/dining_table/text')];
    for (const page of [mine, theirs]) await settled(page, 'text');
    await mine.click('.cm-content');
    await mine.keyboard.press('ControlOrMeta+Home');
    await mine.keyboard.type('# mine\n');
    await theirs.click('.cm-content');
    await theirs.keyboard.press('ControlOrMeta+Home');
    await theirs.keyboard.type('# theirs\n');
    await theirs.keyboard.press('ControlOrMeta+s');
    await theirs.waitForSelector('.head button:has-text("Kept")');
    await mine.keyboard.press('ControlOrMeta+s');
    await mine.waitForSelector('.two-texts');
    expect(await mine.locator('.two-texts .other').allTextContents()).toEqual(['# mine', '# theirs']);
    expect(await axe(mine)).toEqual([]);
    await mine.screenshot({ path: join(shots, 'two_texts.png') });
    expect(written('dining_table')).toMatch(/^# theirs/);
    await mine.click('button:has-text("Keep mine")');
    await mine.waitForSelector('.two-texts', { state: 'detached' });
    await mine.waitForSelector('.head button:has-text("Kept")');
    expect(written('dining_table')).toMatch(/^# mine/);
    await theirs.waitForFunction(() => document.querySelector('.cm-content')?.textContent?.startsWith('# mine'), undefined, { timeout: 15000 });
    await Promise.all([mine.context().close(), theirs.context().close()]);
  });

  it('shows drawings where the browser cannot draw in space', async () => {
    const context = await browser.newContext({ ...kDesktop, serviceWorkers: 'block' });
    const page = await context.newPage();
    await page.addInitScript(() => { HTMLCanvasElement.prototype.getContext = () => null; });
    await page.goto(`${server.address}/c/hall_cabinet`);
    await page.waitForSelector('.stage img');
    expect(await page.textContent('.word')).toContain('WebGL');
    await context.close();
  });

  it('keeps what is written while the server is away, and offers it again', async () => {
    const page = await fresh('/c/study_wall/text');
    await settled(page, 'text');
    await server.stop();
    await page.click('.cm-content');
    await page.keyboard.press('ControlOrMeta+Home');
    await page.keyboard.type('# written without the server\n');
    await page.waitForSelector('.word:has-text("does not answer")');
    await server.start();
    await page.reload();
    await page.waitForSelector('.word:has-text("never kept")');
    await page.click('button:has-text("Take it up again")');
    await page.waitForFunction(() => document.querySelector('.cm-content')?.textContent?.startsWith('# written without'));
    await page.keyboard.press('ControlOrMeta+s');
    await page.waitForSelector('.head button:has-text("Kept")');
    expect(written('study_wall')).toMatch(/^# written without the server/);
    await page.context().close();
  });

  it('can be read without the server once it was read', async () => {
    const context = await browser.newContext(kPhone);
    const page = await context.newPage();
    await page.goto(`${server.address}/c/hall_cabinet/bench`);
    await settled(page, 'bench');
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await settled(page, 'bench');
    await server.stop();
    await page.reload();
    await page.waitForSelector('.one-card .buttons');
    expect(await page.textContent('.one-card')).toContain('Step 1 of');
    await server.start();
    await context.close();
  });
});

it('the program under test is the one that was built', () => expect(program).toMatch(/plankwright$/));
