import {
  ChartNoAxesColumn,
  Columns2,
  FileText,
  History,
  ListOrdered,
  Settings,
  TvMinimalPlay,
  type LucideIcon,
} from 'lucide-react';
import { go, usePlace, type Room } from '../link/place.ts';

const entries: readonly { room: Room; name: string; Icon: LucideIcon }[] = [
  { room: 'stage', name: 'Stage', Icon: TvMinimalPlay },
  { room: 'sheet', name: 'Sheet', Icon: ListOrdered },
  { room: 'side by side', name: 'Side by side', Icon: Columns2 },
  { room: 'board', name: 'Board', Icon: ChartNoAxesColumn },
  { room: 'dossier', name: 'Dossier', Icon: FileText },
  { room: 'second look', name: 'Second look', Icon: History },
];

/** The rail of rooms at the window's left edge; Settings at its foot. */
export function Rooms({ built }: { built: ReadonlySet<Room> }) {
  const room = usePlace((place) => place.room);
  const button = (entry: (typeof entries)[number]) => (
    <li key={entry.room}>
      <button
        type="button"
        className="room"
        aria-current={room === entry.room ? 'page' : undefined}
        onClick={() => go({ room: entry.room })}
      >
        <entry.Icon size={20} strokeWidth={1.6} aria-hidden />
        <span>{entry.name}</span>
      </button>
    </li>
  );
  return (
    <nav className="rooms" aria-label="Rooms">
      <ul>{entries.filter((entry) => built.has(entry.room)).map(button)}</ul>
      <ul>{built.has('settings') ? button({ room: 'settings', name: 'Settings', Icon: Settings }) : null}</ul>
    </nav>
  );
}
