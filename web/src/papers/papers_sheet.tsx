import { useEffect, useState } from 'preact/hooks';
import { paperAddress, paperPageAddress, server } from '../api/client';
import type { PapersAnswer } from '../api/server';
import * as format from '../look/format';
import * as open from '../state/open';

const kFirst = 6;

/** Every paper of the text that is kept, to look at and to take away. */
export function PapersSheet() {
  const [papers, set_papers] = useState<PapersAnswer['papers'] | null>(null);
  const [failed, set_failed] = useState('');
  const version = open.kept.value?.version ?? '';
  useEffect(() => {
    if (!version) return;
    set_failed('');
    server.papers(open.id.value).then((found) => set_papers(found.papers), (error: Error) => { set_papers(null); set_failed(error.message); });
  }, [open.id.value, version]);
  return (
    <>
      <h1>Papers</h1>
      {open.unsaved.value && <div class="word row"><p>The papers are of the text that was kept last, not of what you are writing.</p><button class="main" onClick={() => void open.save()}>Keep, and print that</button></div>}
      {failed && <p class="empty">No papers can be made: {failed}</p>}
      {!papers && !failed && <p class="soft" role="status">Setting the papers …</p>}
      {papers?.map((paper) => <Paper key={paper.id} paper={paper} version={version} />)}
    </>
  );
}

function Paper({ paper, version }: { paper: PapersAnswer['papers'][number]; version: string }) {
  const [all, set_all] = useState(false);
  const shown = all ? paper.pages : Math.min(paper.pages, kFirst);
  return (
    <section aria-label={paper.name}>
      <div class="row" style={{ justifyContent: 'space-between', marginTop: '1.2rem' }}>
        <h2 style={{ margin: 0 }}>{paper.name} <span class="soft small">{format.count(paper.pages, 'page')}</span></h2>
        <a class="button main" href={paperAddress(open.id.value, paper.id)} download={`${open.id.value}_${paper.id}.pdf`}>Download {paper.name.toLowerCase()}</a>
      </div>
      <div class="paper-pages" style={{ marginTop: '0.6rem' }}>
        {Array.from({ length: shown }, (_, at) => (
          <a key={at} href={paperAddress(open.id.value, paper.id) + `#page=${at + 1}`} target="_blank" rel="noopener">
            <img loading="lazy" src={paperPageAddress(open.id.value, paper.id, at + 1, version)} alt={`${paper.name}, page ${at + 1}`} />
          </a>
        ))}
      </div>
      {!all && paper.pages > kFirst && <p><button onClick={() => set_all(true)}>Show all {paper.pages} pages</button></p>}
    </section>
  );
}
