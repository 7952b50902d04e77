create table pace (
  hash text primary key,
  ends integer not null,
  tries integer not null
) strict;
create index pace_by_end on pace (ends);
