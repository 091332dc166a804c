/** On a plan's page: bundles lifted out and put back without losing one's place, and what a touched bundle is made of. */

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
  const open = [...stow.querySelectorAll('details')].map((details) => details.open);
  const words = link.textContent?.split(' ')[0] ?? '';
  stow.replaceWith(fresh);
  for (const [n, details] of [...fresh.querySelectorAll('details')].entries()) details.open = open[n] ?? false;
  const links = [...fresh.querySelectorAll<HTMLAnchorElement>('a[data-lift]')];
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
  for (const other of pictures.querySelectorAll<SVGGElement>('[data-name]'))
    other.classList.toggle('touched', other.dataset.name === name);
  const page = await loadPage(address);
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
  figure?.after(slip);
}

async function loadPage(address: string): Promise<Document | null> {
  const response = await fetch(address).catch(() => null);
  return response?.ok ? new DOMParser().parseFromString(await response.text(), 'text/html') : null;
}
