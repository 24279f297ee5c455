export function SideBySide() {
  return null;
}
