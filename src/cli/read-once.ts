import { config } from 'zod';

// zod compiles a checker for each shape, which pays from the second reading on. This process reads one case.
config({ jitless: true });
