import { Dialog as Radix } from 'radix-ui';
import { X } from 'lucide-react';
import { useRef, type ReactNode } from 'react';

/** A dialog over the window: titled, closed by Escape, its focus kept inside. */
export function Dialog({
  title,
  open,
  onClose,
  children,
  wide = false,
}: {
  title: string;
  open: boolean;
  onClose: () => void;
  children: ReactNode;
  wide?: boolean;
}) {
  const body = useRef<HTMLDivElement>(null);
  return (
    <Radix.Root open={open} onOpenChange={(next) => (next ? undefined : onClose())}>
      <Radix.Portal>
        <Radix.Overlay className="dialog-veil" />
        <Radix.Content
          className={wide ? 'dialog dialog-wide' : 'dialog'}
          aria-describedby={undefined}
          onOpenAutoFocus={(event) => {
            // What is to be filled or chosen has the focus first, not the way out.
            const first = body.current?.querySelector<HTMLElement>('input, select, textarea, button');
            if (first === null || first === undefined) return;
            event.preventDefault();
            first.focus();
          }}
        >
          <header className="dialog-head">
            <Radix.Title className="dialog-title">{title}</Radix.Title>
            <Radix.Close className="button-quiet" aria-label="Close">
              <X size={18} aria-hidden />
            </Radix.Close>
          </header>
          <div
            ref={body}
            className="dialog-body"
            {...(wide ? { tabIndex: 0, role: 'region', 'aria-label': title } : {})}
          >
            {children}
          </div>
        </Radix.Content>
      </Radix.Portal>
    </Radix.Root>
  );
}
