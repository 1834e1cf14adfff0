/** How an amount is written. It comes from the planner to the cent; nothing is reckoned with it here. */

export function money(currency: string, amount: string | number): string {
  const [whole = '', cents] = String(amount).split('.');
  return `${currency.trim()} ${whole.replaceAll(/\B(?=(\d{3})+$)/g, ',')}${cents ? `.${cents}` : ''}`;
}
