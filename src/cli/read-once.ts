import { config } from 'zod';

// zod compiles a checker for each shape, which pays from the second reading on. This process reads one case, and perhaps a studio's own files, once each.
config({ jitless: true });
