/** A photo, scan or drawing under the sheet, to be traced. It stays in this browser: it is no part of the job. */

import type { Point } from '../core/length';

export interface Picture {
  blob: Blob;
  /** Its size in its own pixels. */
  width: number;
  height: number;
  /** Its top left corner in plan, inches. */
  at: Point;
  /** Inches of plan to one of its pixels. */
  scale: number;
}

/** Laid under a plan from its lower left corner, as wide as a house until its scale is known. */
export async function laidUnder(blob: Blob): Promise<Picture> {
  const bitmap = await createImageBitmap(blob);
  const { width, height } = bitmap;
  bitmap.close();
  const scale = 720 / width;
  return { blob, width, height, at: [0, height * scale], scale };
}

/** So scaled that two points on it are as far apart as was measured; the first stays where it is. */
export function scaled(picture: Picture, first: Point, by: number): Picture {
  const at: Point = [first[0] + (picture.at[0] - first[0]) * by, first[1] + (picture.at[1] - first[1]) * by];
  return { ...picture, at, scale: picture.scale * by };
}

export function shifted(picture: Picture, [x, y]: Point): Picture {
  return { ...picture, at: [picture.at[0] + x, picture.at[1] + y] };
}

const STORE = 'pictures';

function open(): Promise<IDBDatabase> {
  return new Promise((done, fail) => {
    const request = indexedDB.open('headlap', 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE);
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error ?? new Error('no store'));
  });
}

async function ask<T>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const database = await open();
  return new Promise<T>((done, fail) => {
    const request = ask(database.transaction(STORE, mode).objectStore(STORE));
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error ?? new Error('no store'));
  }).finally(() => database.close());
}

export function pictureOf(job: number): Promise<Picture | undefined> {
  return ask<Picture | undefined>('readonly', (store) => store.get(job));
}

export async function keepPicture(job: number, picture: Picture | undefined): Promise<void> {
  if (picture) await ask('readwrite', (store) => store.put(picture, job));
  else await ask('readwrite', (store) => store.delete(job));
}
