import { inject } from 'vitest';

// Commands that run in this process keep their caches like built ones, and share them between files.
process.env.XDG_CACHE_HOME = inject('caches');
