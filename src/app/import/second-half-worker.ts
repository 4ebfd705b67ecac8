import { expose, transfer } from 'comlink';
import { readSecondHalf, type SecondHalf } from '../../io/import/second-half';

expose(async (half: SecondHalf) => {
  const read = await readSecondHalf(half);
  if (read === null || read === 'other encoding') return read;
  const codes = read.table.blocks.flatMap(({ columns }) =>
    columns.map((each) => each.codes.buffer),
  );
  return transfer(read, codes);
});
