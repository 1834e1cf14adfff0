/** Where in the app one is, kept in the address: `/`, `/job/7/measure`. */

export const STEPS = ['measure', 'choose', 'layout', 'check', 'order', 'price'] as const;
export type Step = (typeof STEPS)[number];

export interface Place {
  job: number | undefined;
  page: string;
  /** What the page is to show first: `?plane=house.0`. */
  query: URLSearchParams;
}

let place: Place = $state.raw(read());

function read(): Place {
  const [, job, page] = /^\/job\/(\d+)\/?(\w*)$/.exec(location.pathname) ?? [];
  const query = new URLSearchParams(location.search);
  if (job) return { job: Number(job), page: page || 'measure', query };
  return { job: undefined, page: location.pathname === '/' ? 'jobs' : 'nowhere', query };
}

addEventListener('popstate', () => {
  place = read();
});

export function here(): Place {
  return place;
}

export function go(path: string): void {
  history.pushState(null, '', path);
  place = read();
  scrollTo(0, 0);
}

/** Follows a link of ours without loading the page anew; new windows stay new windows. */
export function follow(event: MouseEvent): void {
  const link = (event.target as Element).closest('a[href^="/"]');
  if (!link || link.hasAttribute('download') || link.hasAttribute('target')) return;
  if (event.button !== 0 || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey || event.defaultPrevented) return;
  event.preventDefault();
  go(link.getAttribute('href') ?? '/');
}
