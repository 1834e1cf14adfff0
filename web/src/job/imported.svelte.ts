/** What was moved, rounded or left out of the file from which a job was begun just now; told until somebody has read it. */
export const imported: { job: number; notes: string[] } = $state({ job: 0, notes: [] });
