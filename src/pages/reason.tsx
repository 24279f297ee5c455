/** The sentence printed where a value would stand and there is none. */
export function Reason({ detail }: { readonly detail: string }) {
  return <span className="reason">{detail}</span>;
}
