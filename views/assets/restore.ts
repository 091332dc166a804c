/** What was done in a field and is not kept yet is put into it again, in sight. */

export type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** The field of that name; a button is none. */
export function controlOf(form: HTMLFormElement, name: string): Control | null {
  return form.querySelector<Control>(`:is(input, select, textarea)[name="${CSS.escape(name)}"]`);
}

export function isTick(control: Element): control is HTMLInputElement {
  return control instanceof HTMLInputElement && control.type === 'checkbox';
}

/** `value` is its text; null where it was unticked. Returned is the field, unless there is none. */
export function restore(form: HTMLFormElement, name: string, value: string | null): Control | null {
  const control = controlOf(form, name);
  if (!control) return null;
  if (isTick(control)) control.checked = value !== null;
  else control.value = value ?? '';
  for (let fold = control.closest('details'); fold; fold = fold.parentElement?.closest('details') ?? null)
    fold.open = true;
  return control;
}
