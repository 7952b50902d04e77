create table temperatures (
  id text primary key,
  job text not null references job (id) on delete cascade,
  name text not null,
  note text not null,
  who text not null,
  kept bigint not null,
  days text not null,
  unique (job, name)
);
create index temperatures_of_job on temperatures (job, kept);
