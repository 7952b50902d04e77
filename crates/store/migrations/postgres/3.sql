create table pace (
  hash text primary key,
  ends bigint not null,
  tries bigint not null
);
create index pace_by_end on pace (ends);
