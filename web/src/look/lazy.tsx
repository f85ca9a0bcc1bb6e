// A room that is fetched when it is first entered.
import type { FunctionComponent } from 'preact';
import { useEffect, useState } from 'preact/hooks';

export function lazy(fetch_room: () => Promise<FunctionComponent>): FunctionComponent {
  let known: FunctionComponent | null = null;
  return function Lazy() {
    const [Room, set_room] = useState<FunctionComponent | null>(() => known);
    const [failed, set_failed] = useState(false);
    useEffect(() => {
      if (known) return;
      fetch_room().then((room) => { known = room; set_room(() => room); }, () => set_failed(true));
    }, []);
    if (failed) return <p class="empty">This sheet could not be fetched. Start the server again, then load the page anew.</p>;
    return Room ? <Room /> : <p class="soft">Fetching the sheet …</p>;
  };
}

