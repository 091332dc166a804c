/**
 * What was ticked, unticked or typed and is not kept yet, in this browser: one store for all windows on a plan, whichever
 * of its pages they show, so that none writes over what another has waiting, and any of them may send it.
 */

export interface Waiting {
  /** Its text; null where it was unticked. */
  value: string | null;
  /** When it was done, ISO time. */
  at: string;
  /** It stood ticked before, or may: a try that got no answer may have come in. */
  was: boolean;
}

export interface Kept {
  all(): Map<string, Waiting>;
  put(name: string, one: Waiting): void;
  /** Those of `sent` that nobody did otherwise since are kept by the server: they wait no longer. */
  done(sent: ReadonlyMap<string, Waiting>): void;
}

export function openKept(key: string): Kept {
  // A browser that keeps nothing still has the page itself, until it is closed.
  let here: string | null = null;

  function all(): Map<string, Waiting> {
    return new Map(readWaiting(here ?? stored(key)));
  }

  function change(how: (waiting: Map<string, Waiting>) => void): void {
    const waiting = all();
    how(waiting);
    const text = JSON.stringify([...waiting]);
    try {
      if (waiting.size === 0) localStorage.removeItem(key);
      else localStorage.setItem(key, text);
      here = null;
    } catch {
      here = text;
    }
  }

  return {
    all,
    put: (name, one) => change((waiting) => waiting.set(name, one)),
    done: (sent) =>
      change((waiting) => {
        for (const [name, one] of sent) if (isSame(waiting.get(name), one)) waiting.delete(name);
      }),
  };
}

export function isSame(one: Waiting | undefined, other: Waiting | undefined): boolean {
  return one?.at === other?.at && one?.value === other?.value;
}

function stored(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/** None of what something else wrote there. */
function readWaiting(text: string | null): [string, Waiting][] {
  try {
    const items = JSON.parse(text ?? '[]') as [string, Waiting][];
    return items.filter(([name, one]) => /^(in|lies)\.\d+$/.test(name) && !Number.isNaN(Date.parse(one.at)));
  } catch {
    return [];
  }
}
