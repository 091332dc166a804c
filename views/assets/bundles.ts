/**
 * On a plan's page: bundles lifted out and put back without losing one's place; from a touched bundle to its pieces and
 * bars, and from a touched piece to its bundle.
 */
import { swapIn } from './swap.ts';

/** "Lift out" and "put back" change their own void's part of the page. */
export function liftInPlace(main: HTMLElement): void {
  main.addEventListener('click', (event) => {
    const link = (event.target as Element).closest<HTMLAnchorElement>('a[data-lift]');
    const stow = link?.closest<HTMLElement>('.stow');
    if (!link || !stow || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    void swap(link, stow);
  });
}

async function swap(link: HTMLAnchorElement, stow: HTMLElement): Promise<void> {
  const page = await loadPage(link.href);
  const fresh = page?.getElementById(stow.id);
  if (!fresh) {
    location.assign(link.href);
    return;
  }
  const words = link.textContent?.split(' ')[0] ?? '';
  swapIn(stow, fresh);
  const links = [...stow.querySelectorAll<HTMLAnchorElement>('a[data-lift]')];
  (links.find((candidate) => candidate.textContent?.startsWith(words)) ?? links[0])?.focus();
}

/** A bundle touched in a drawing tells below it what it is made of. The table of bundles says the same without scripts. */
export function tellTouchedBundle(main: HTMLElement): void {
  main.addEventListener('click', (event) => {
    const group = (event.target as Element).closest<SVGGElement>('.stow [data-name]');
    const pictures = group?.closest<HTMLElement>('[data-bundles]');
    if (group && pictures) void tell(group, pictures);
  });
}

async function tell(group: SVGGElement, pictures: HTMLElement): Promise<void> {
  const name = group.dataset.name ?? '';
  const address = `${pictures.dataset.bundles}${encodeURIComponent(name)}`;
  mark(pictures, name);
  const page = await loadPage(address);
  // Another one may have been touched while this was on its way.
  if (!group.classList.contains('touched')) return;
  const pieces = page?.querySelector('.pieces');
  const mass = page?.querySelector('.large')?.textContent ?? '';
  if (!pieces) return;
  const figure = group.closest('figure');
  pictures.querySelector('.touched-bundle')?.remove();
  const slip = document.createElement('aside');
  slip.className = 'touched-bundle';
  slip.setAttribute('role', 'status');
  const head = slip.appendChild(document.createElement('h4'));
  const link = head.appendChild(document.createElement('a'));
  link.href = address;
  link.textContent = name;
  head.append(`, ${mass}`);
  slip.append(document.importNode(pieces, true));
  // A bar that is drawn further down this page is gone to there.
  for (const bar of slip.querySelectorAll('a'))
    if (bar.pathname === location.pathname && document.getElementById(bar.hash.slice(1))) bar.href = bar.hash;
  figure?.after(slip);
}

function mark(place: HTMLElement, name: string): void {
  for (const shape of place.querySelectorAll<SVGGElement>('[data-name]'))
    shape.classList.toggle('touched', shape.dataset.name === name);
}

/** A piece touched on a drawn bar: the line below that says which bundle it goes into. */
export function tellTouchedPiece(main: HTMLElement): void {
  main.addEventListener('click', (event) => {
    const shape = (event.target as Element).closest<SVGGElement>('.cutting [data-name]');
    const cutting = shape?.closest<HTMLElement>('.cutting');
    if (!shape || !cutting) return;
    const name = shape.dataset.name ?? '';
    const details = cutting.querySelector('details');
    if (details) details.open = true;
    mark(cutting, name);
    const lines = [...cutting.querySelectorAll('ol > li')];
    for (const [n, line] of lines.entries()) line.classList.toggle('touched', String(n + 1) === name);
    lines[Number(name) - 1]?.querySelector('a')?.focus();
  });
}

/** Who comes to a bundle's line from a piece sees it marked in the drawings above as well. */
export function markBundleGoneTo(main: HTMLElement): void {
  const markIt = (): void => {
    const row = document.querySelector<HTMLElement>('tr:target[id^="at-"]');
    const stow = row?.closest<HTMLElement>('.stow');
    if (row && stow && main.contains(stow)) mark(stow, row.id.slice('at-'.length));
  };
  addEventListener('hashchange', markIt);
  // Where the address leads is known once the page is there.
  addEventListener('load', markIt);
}

async function loadPage(address: string): Promise<Document | null> {
  const response = await fetch(address).catch(() => null);
  return response?.ok ? new DOMParser().parseFromString(await response.text(), 'text/html') : null;
}
