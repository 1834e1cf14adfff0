/** The price of the job on the table, asked anew whenever the job changes. */

import { Gone, type Mistake, type Prices, Refused, post } from '../api/client';
import { type Desk, textOf } from '../job/desk.svelte';

export class Pricing {
  prices: Prices | undefined = $state.raw();
  mistakes: Mistake[] = $state.raw([]);
  trouble: Refused | undefined = $state.raw();
  #asking: AbortController | undefined;

  /** Must be called while a component is set up. */
  constructor(desk: Desk) {
    $effect(() => {
      const text = textOf(desk.history.now);
      void this.#ask(text);
      return () => this.#asking?.abort();
    });
  }

  async #ask(text: string): Promise<void> {
    this.#asking?.abort();
    const asking = (this.#asking = new AbortController());
    try {
      const prices = await post('/api/price', { text }, {}, asking.signal);
      if (asking.signal.aborted) return;
      this.mistakes = prices.mistakes;
      this.trouble = undefined;
      // A price that cannot be made for a moment stays until the mistake is mended, which is told beside it.
      if (prices.rates) this.prices = prices;
    } catch (error) {
      if (error instanceof Refused) this.trouble = error;
      else if (!(error instanceof Gone) && !asking.signal.aborted) throw error;
    }
  }
}
