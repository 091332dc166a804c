/** True of a field in which something else stands than the page came with. */
export function isChanged(control: Element): boolean {
  if (control instanceof HTMLTextAreaElement) return control.value !== control.defaultValue;
  if (control instanceof HTMLSelectElement) {
    const usual = [...control.options].findLastIndex((option) => option.defaultSelected);
    return control.selectedIndex !== Math.max(0, usual);
  }
  if (!(control instanceof HTMLInputElement) || control.type === 'hidden') return false;
  return control.value !== control.defaultValue || control.checked !== control.defaultChecked;
}
