import { allChecks } from './all-checks.ts';
import { agrees, allowance, type Check, difference } from './check.ts';

const digits = (x: number): string => (Number.isFinite(x) ? Number(x.toPrecision(6)).toString() : String(x));

function row(check: Check): string {
  return [
    agrees(check) ? 'agrees' : 'DIFFERS',
    check.topic,
    `${check.quantity} [${check.unit}]`,
    check.source,
    check.standing,
    digits(check.printed),
    digits(check.computed),
    digits(difference(check)),
    `± ${digits(allowance(check))}`,
  ].join(' | ');
}

console.log('result | topic | quantity | source | standing | printed | computed | difference | tolerance');
for (const check of allChecks) console.log(row(check));
const failed = allChecks.filter((check) => !agrees(check)).length;
console.log(`\n${allChecks.length - failed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
