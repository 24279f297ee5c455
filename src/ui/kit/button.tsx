import type { ButtonHTMLAttributes } from 'react';

type Kind = 'plain' | 'chosen' | 'quiet';

/** A button: plain, chosen (the one thing to do next) or quiet (no ground of its own). */
export function Button({
  kind = 'plain',
  className = '',
  ...rest
}: ButtonHTMLAttributes<HTMLButtonElement> & { kind?: Kind }) {
  const classes = { plain: 'button', chosen: 'button button-chosen', quiet: 'button-quiet' } as const;
  return <button type="button" {...rest} className={`${classes[kind]} ${className}`} />;
}
