import { examine, findingsOf } from '../domain/findings/findings-of';
import type { OpenedSite } from '../io/open-site';
import type { Answer } from './answer';
import type { Asked } from './arguments';

/** What is doubtful: of the site as a whole, then event by event. */
export function findings({ site, grid }: OpenedSite, { event }: Asked): Answer {
  const events = event === null ? [null, ...site.events.keys()] : [event];
  const found = events.map((id) => ({
    event: id,
    findings: findingsOf(examine(site, id, grid.covers)),
  }));
  const text = found.map(({ event: id, findings: list }) =>
    [
      id ?? 'The site as a whole',
      ...(list.length === 0 ? ['  nothing doubtful was found'] : []),
      ...list.map(
        ({ severity, says, todo, accepted }) =>
          `  ${severity.toUpperCase()}${accepted ? ' (accepted)' : ''}: ${says}\n    ${todo}`,
      ),
    ].join('\n'),
  );
  return {
    text: text.join('\n\n'),
    json: found.flatMap(({ event: id, findings: list }) =>
      list.map(({ rule, severity, about, who, says, todo, accepted }) => ({
        event: id,
        rule,
        severity,
        about,
        who,
        says,
        todo,
        accepted: accepted?.reason ?? null,
      })),
    ),
  };
}
