/** What is kept in this window from one page to the next; a browser that keeps nothing goes without. */

export function keep(name: string, text: string): void {
  try {
    sessionStorage.setItem(name, text);
  } catch {
    // Forbidden, or full.
  }
}

/** What was kept, which it is no longer. */
export function take(name: string): string | null {
  try {
    const text = sessionStorage.getItem(name);
    sessionStorage.removeItem(name);
    return text;
  } catch {
    return null;
  }
}
