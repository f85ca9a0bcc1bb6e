// A server of our own on copies of the demo commissions, and a browser on it.
import { spawn, type ChildProcess } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';

const root = fileURLToPath(new URL('../../../', import.meta.url));
export const program = process.env['PLANKWRIGHT'] ?? join(root, 'build/plankwright');
export const shots = process.env['PLANKWRIGHT_SHOTS'] ?? join(root, 'out/pages');
export const demos = ['hall_cabinet', 'dining_table', 'study_wall'] as const;

export class Server {
  private child: ChildProcess | null = null;
  port = 0;
  readonly folder = mkdtempSync(join(tmpdir(), 'plankwright-pages-'));

  constructor() {
    cpSync(join(root, 'examples'), this.folder, { recursive: true });
  }

  get address(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  async start(): Promise<void> {
    const child = spawn(program, ['serve', this.folder, '--port', String(this.port)]);
    this.child = child;
    this.port = await new Promise<number>((found, failed) => {
      let said = '';
      child.stdout.on('data', (bytes: Buffer) => {
        said += bytes.toString();
        const match = said.match(/http:\/\/127\.0\.0\.1:(\d+)/);
        if (match) found(Number(match[1]));
      });
      child.on('error', failed);
      child.on('exit', (code) => failed(new Error(`the server ended with ${code}: ${said}`)));
    });
  }

  async stop(): Promise<void> {
    const child = this.child;
    this.child = null;
    if (!child) return;
    await new Promise<void>((ended) => {
      child.removeAllListeners('exit');
      child.on('exit', () => ended());
      child.kill('SIGTERM');
      setTimeout(() => child.kill('SIGKILL'), 5000).unref();
    });
  }

  async remove(): Promise<void> {
    await this.stop();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

export async function open_browser(): Promise<Browser> {
  mkdirSync(shots, { recursive: true });
  return chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    headless: true,
    args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--disable-quic', '--no-first-run',
      '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-dev-shm-usage'],
  });
}

export const kDesktop = { viewport: { width: 1366, height: 860 } };
export const kPhone = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true };

/** What the console and the page complained of. */
export function complaints(page: Page): string[] {
  const said: string[] = [];
  page.on('console', (message) => { if (message.type() === 'error') said.push(`${message.text()} (${message.location().url})`); });
  page.on('pageerror', (error) => said.push(error.message));
  return said;
}

/** Requests to anywhere but the server. */
export function outside(context: BrowserContext, address: string): string[] {
  const asked: string[] = [];
  context.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !url.startsWith('data:') && !url.startsWith('blob:')) asked.push(url);
  });
  return asked;
}

export async function axe(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.addScriptTag({ path: join(root, 'web/node_modules/axe-core/axe.min.js') });
  return page.evaluate(async () => {
    type Axe = { run(context: unknown, options: unknown): Promise<{ violations: Array<{ id: string; impact: string; nodes: Array<{ html: string; failureSummary: string }> }> }> };
    const { axe: checker } = window as unknown as { axe: Axe };
    const { violations } = await checker.run(document, { resultTypes: ['violations'] });
    return violations.filter((one) => one.impact === 'serious' || one.impact === 'critical').map((one) => `${one.id}: ${one.nodes[0]?.html.slice(0, 160)} ${one.nodes[0]?.failureSummary.slice(0, 200)}`);
  });
}

/** Waits until the sheet shows its plan. */
export async function settled(page: Page, sheet: string): Promise<void> {
  const sign: Record<string, string> = {
    piece: '.stage[data-drawn]', text: '.cm-content', findings: '.finding', price: '.plot svg', stock: '.layout svg', bench: '.step, .one-card',
    papers: '.paper-pages img', shelf: '.job .picture img', calendar: '.calendar',
  };
  await page.waitForSelector(sign[sheet] ?? 'main', { timeout: 60000 });
  await page.waitForFunction(() => document.querySelector('main')?.getAttribute('aria-busy') !== 'true');
}
