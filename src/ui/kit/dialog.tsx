import { Dialog as Radix } from 'radix-ui';
import { X } from 'lucide-react';
import type { ReactNode } from 'react';

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
  return (
    <Radix.Root open={open} onOpenChange={(next) => (next ? undefined : onClose())}>
      <Radix.Portal>
        <Radix.Overlay className="dialog-veil" />
        <Radix.Content className={wide ? 'dialog dialog-wide' : 'dialog'} aria-describedby={undefined}>
          <header className="dialog-head">
            <Radix.Title className="dialog-title">{title}</Radix.Title>
            <Radix.Close className="button-quiet" aria-label="Close">
              <X size={18} aria-hidden />
            </Radix.Close>
          </header>
          <div className="dialog-body" {...(wide ? { tabIndex: 0, role: 'region', 'aria-label': title } : {})}>
            {children}
          </div>
        </Radix.Content>
      </Radix.Portal>
    </Radix.Root>
  );
}
