import { readFileSync } from 'node:fs';
import { defineConfig, type Plugin } from 'vite';

// The service worker keeps every file of this build for reading without the server; it is told
// their names here.
function serviceWorker(): Plugin {
  return {
    name: 'service-worker',
    generateBundle(_, bundle) {
      const files = Object.keys(bundle).filter((name) => name.startsWith('assets/')).map((name) => `/${name}`);
      const source = readFileSync(new URL('src/service_worker.js', import.meta.url), 'utf8')
        .replace('/*FILES*/', JSON.stringify(files).slice(1, -1))
        .replace('BUILD', hash(files.join()));
      this.emitFile({ type: 'asset', fileName: 'sw.js', source });
    },
  };
}

function hash(text: string): string {
  let value = 5381;
  for (const letter of text) value = (value * 33 + letter.charCodeAt(0)) >>> 0;
  return value.toString(36);
}

export default defineConfig({
  plugins: [serviceWorker()],
  build: { target: 'es2022', assetsInlineLimit: 0, chunkSizeWarningLimit: 800 },
  server: { proxy: { '/api': 'http://127.0.0.1:7326' } },
});
