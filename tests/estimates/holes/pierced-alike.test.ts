import { expect, test } from 'vitest';
import { prepare } from '../../../src/decision/prepare.ts';
import { holes, piercedAlike } from '../../../src/estimates/holes/holes.ts';
import { context, shipped, shippedCase } from '../../decision/shipped.ts';

// Quilts with a filling: there the same stitches come with several battings.
test.each(['weathercock-on-point', 'orchard-ladder', 'tea-stained-chain'])(
  'plans that are pierced alike make the same holes: %s',
  (name) => {
    const { options } = prepare(shippedCase(`${name}.yaml`), context);
    const first = new Map<string, string>();
    let compared = 0;
    for (const { plan } of options) {
      const key = piercedAlike(plan);
      const counted = JSON.stringify(holes(plan, shipped.figures));
      if (first.has(key)) compared += 1;
      expect(first.get(key) ?? counted, plan.id).toBe(counted);
      first.set(key, counted);
    }
    expect(compared).toBeGreaterThan(20);
    expect(first.size).toBeGreaterThan(20);
  },
);
