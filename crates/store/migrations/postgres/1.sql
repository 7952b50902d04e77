create table firm (
  id text primary key,
  name text not null,
  made bigint not null
);

create table job (
  id text primary key,
  firm text not null references firm (id) on delete cascade,
  name text not null,
  stage text not null,
  revision bigint not null,
  text text not null,
  updated bigint not null,
  updated_by text not null
);
create index job_of_firm on job (firm, updated);

create table revision (
  job text not null references job (id) on delete cascade,
  revision bigint not null,
  change text not null,
  kind text not null,
  who text not null,
  at text not null,
  kept bigint not null,
  edits text not null,
  packed bytea not null,
  primary key (job, revision),
  unique (job, change)
);

create table conflict (
  job text not null references job (id) on delete cascade,
  change text not null,
  who text not null,
  at text not null,
  kept bigint not null,
  base bigint not null,
  edits text not null,
  settled bigint,
  settled_by text not null,
  primary key (job, change)
);

create table record (
  job text not null references job (id) on delete cascade,
  n bigint not null,
  id text not null,
  line text not null,
  primary key (job, n),
  unique (job, id)
);

create table photo (
  id text primary key,
  job text not null references job (id) on delete cascade,
  shows text not null,
  note text not null,
  who text not null,
  at text not null,
  kept bigint not null,
  kind text not null,
  width bigint not null,
  height bigint not null,
  bytes bytea not null,
  small bytea not null
);
create index photo_of_job on photo (job, kept);

insert into firm (id, name, made) values ('local', 'this machine', 0);
