create table firm (
  id text primary key,
  name text not null,
  made integer not null
) strict;

create table job (
  id text primary key,
  firm text not null references firm (id) on delete cascade,
  name text not null,
  stage text not null,
  revision integer not null,
  text text not null,
  updated integer not null,
  updated_by text not null
) strict;
create index job_of_firm on job (firm, updated);

create table revision (
  job text not null references job (id) on delete cascade,
  revision integer not null,
  change text not null,
  kind text not null,
  who text not null,
  at text not null,
  kept integer not null,
  edits text not null,
  packed blob not null,
  primary key (job, revision),
  unique (job, change)
) strict;

create table conflict (
  job text not null references job (id) on delete cascade,
  change text not null,
  who text not null,
  at text not null,
  kept integer not null,
  base integer not null,
  edits text not null,
  settled integer,
  settled_by text not null,
  primary key (job, change)
) strict;

create table record (
  job text not null references job (id) on delete cascade,
  n integer not null,
  id text not null,
  line text not null,
  primary key (job, n),
  unique (job, id)
) strict;

create table photo (
  id text primary key,
  job text not null references job (id) on delete cascade,
  shows text not null,
  note text not null,
  who text not null,
  at text not null,
  kept integer not null,
  kind text not null,
  width integer not null,
  height integer not null,
  bytes blob not null,
  small blob not null
) strict;
create index photo_of_job on photo (job, kept);

insert into firm (id, name, made) values ('local', 'this machine', 0);
