import { sentenceOf } from '../domain/site/problem';
import { openSite } from '../io/open-site';
import { readArguments, USAGE, type Asked, type Command } from './arguments';
import { findings } from './findings';
import { flow } from './flow';
import { heads } from './heads';
import type { Answer } from './answer';
import { readFiles } from './read-files';
import { results } from './results';
import { tables } from './tables';
import type { OpenedSite } from '../io/open-site';

const ANSWERS: Readonly<Record<Command, (opened: OpenedSite, asked: Asked) => Answer>> = {
  heads,
  flow,
  results,
  findings,
  tables,
};

/** 0 done; 1 the site or what was asked of it is not there; 2 the command is not understood. */
async function main(given: readonly string[]): Promise<number> {
  if (given.includes('--help') || given.length === 0) {
    console.log(USAGE);
    return given.length === 0 ? 2 : 0;
  }
  const asked = readArguments(given);
  if (!asked.ok) {
    console.error(`${asked.problem}\n\n${USAGE}`);
    return 2;
  }
  const files = await readFiles(asked.value.site);
  if (!files.ok) {
    console.error(files.problem);
    return 1;
  }
  const opened = openSite(files.value);
  if (!opened.ok) {
    console.error(`${asked.value.site}: ${sentenceOf(opened.problem)}`);
    return 1;
  }
  const { site, problems } = opened.value;
  const { event, zone } = asked.value;
  if (event !== null && !site.events.has(event)) {
    console.error(
      `Expected an event of the site (${[...site.events.keys()].join(', ')}), found “${event}”.`,
    );
    return 1;
  }
  const zones = new Set([...site.screens.values()].map((screen) => screen.zone));
  if (zone !== null && !zones.has(zone)) {
    console.error(
      `Expected a zone of the site (${[...zones].filter(Boolean).join(', ')}), found “${zone}”.`,
    );
    return 1;
  }

  const answer = ANSWERS[asked.value.command](opened.value, asked.value);
  console.log(asked.value.json ? JSON.stringify(answer.json, null, 2) : answer.text);
  const unread = [...problems, ...site.problems];
  if (unread.length > 0 && asked.value.command !== 'tables')
    console.error(
      `${unread.length} rows or files with a problem; the command “tables” lists them. The first: ${sentenceOf(unread[0] as (typeof unread)[number])}`,
    );
  return 0;
}

process.exitCode = await main(process.argv.slice(2));
