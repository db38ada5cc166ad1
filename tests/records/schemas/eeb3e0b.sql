BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 04:21:19.434620+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 04:21:19.437708+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 04:21:19.440977+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 04:21:19.442518+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 04:21:19.444416+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m007_tasks','2026-11-26 04:21:19.446982+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m008_visit_identities','2026-11-26 04:21:19.448590+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-23d9-7538-a270-f8bfb1fc44ac','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','e44fae01ba1100e0118e649deba8b5336e16de0015715b54242185e78cd09643');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-23da-7146-b54b-fe3265aef9f5','{"role":"surgeon"}','e44fae01ba1100e0118e649deba8b5336e16de0015715b54242185e78cd09643','752d9e90f3af623b86ffd413328fc1d8fd87f55a76a4fd7b5727d3e4a0fbc365');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','enrolment code','01a21616-23db-7641-97a4-ef418426d6c4','null','752d9e90f3af623b86ffd413328fc1d8fd87f55a76a4fd7b5727d3e4a0fbc365','6aa51e5db15f27e2e6c3d7bfbd06c9ca7b9177696aa039bf3f5d2bb71e514936');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','discharge','01a21616-23db-7641-97a4-ef42100ddee4','{"agent":"c2f6","eye":"right"}','6aa51e5db15f27e2e6c3d7bfbd06c9ca7b9177696aa039bf3f5d2bb71e514936','64f274fa053bf792951311f5525d1427d7749c069c2bff14659039815de4b983');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','enrolment code','01a21616-23dc-719e-8f26-115d5d7e0ed0','null','64f274fa053bf792951311f5525d1427d7749c069c2bff14659039815de4b983','9823a4fd411ae99580c7e9f00d3a7893b4b2b23218c51741c6f3c14ca8ef1770');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','discharge','01a21616-23dc-719e-8f26-115e8e9757dc','{"agent":"silicone-oil","eye":"right"}','9823a4fd411ae99580c7e9f00d3a7893b4b2b23218c51741c6f3c14ca8ef1770','5e5fa35a48947e78a91238b889596a0bfde6452a5e6108c46de503a73d75c2dd');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21616-23de-7652-99ce-df1366b4b709','device enrolled','01a21616-23db-7641-97a4-ef418426d6c4','null','5e5fa35a48947e78a91238b889596a0bfde6452a5e6108c46de503a73d75c2dd','1b05a683eb2acf74fe0c434463e0658cc75bb1dbff3ad06d356945729f4a48ad');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21616-23de-7652-99ce-df1366b4b709','event posture','01a21616-23db-7641-97a4-ef42100ddee4','{"id":"0195e5a0-0000-7000-8000-000000000001"}','1b05a683eb2acf74fe0c434463e0658cc75bb1dbff3ad06d356945729f4a48ad','2d3d680c0d2ffd8eec316155025f950b6b398e6ab2aa4dacbd33ae5acee84fcd');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"today","rule":"missed-early-visit"}','2d3d680c0d2ffd8eec316155025f950b6b398e6ab2aa4dacbd33ae5acee84fcd','201d3c522c963ab464f2d6c0f4caa75ffd7a4e045ed8d74c0174511413b8947c');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"today","rule":"posture-missed"}','201d3c522c963ab464f2d6c0f4caa75ffd7a4e045ed8d74c0174511413b8947c','227b82b9f5598570b0a8ad894579c747e6507f75f7b3ebcba95fadae4b60129d');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"today","rule":"silent-while-posturing"}','227b82b9f5598570b0a8ad894579c747e6507f75f7b3ebcba95fadae4b60129d','79847a399c017ace77c91f7daa2adddb9c39a459bbd3f4d107e5a25da29c76c3');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"today","rule":"no-posture-entry"}','79847a399c017ace77c91f7daa2adddb9c39a459bbd3f4d107e5a25da29c76c3','9fd333816dd4c30346a8e69130177d69036c0d975e7230c16e590780a216f271');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21616-23de-7652-99ce-df1366b4b709','event symptoms','01a21616-23db-7641-97a4-ef42100ddee4','{"id":"0195e5a0-0000-7000-8000-000000000002"}','9fd333816dd4c30346a8e69130177d69036c0d975e7230c16e590780a216f271','4385a9087a1f257c7e3249f28d589a2cfec35958aa33de019790e916f5980257');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"now","rule":"infection-suspected"}','4385a9087a1f257c7e3249f28d589a2cfec35958aa33de019790e916f5980257','bc13920bc53389e8a0d97c4299f6c2fb9d3c9146085127c3a6bfa70e270133d6');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"now","rule":"severe-pain"}','bc13920bc53389e8a0d97c4299f6c2fb9d3c9146085127c3a6bfa70e270133d6','ad444ede27c86466e79f74a3fc22eaa462d03dff48051a56576bba5e0667715b');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"today","rule":"curtain"}','ad444ede27c86466e79f74a3fc22eaa462d03dff48051a56576bba5e0667715b','25a7e38ecba34b0f0cac53c799b2126c6139ea2db492d478da18ff112251cfb0');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"today","rule":"pain"}','25a7e38ecba34b0f0cac53c799b2126c6139ea2db492d478da18ff112251cfb0','3e15f628f0603acccb70355a5497ad748dcecd355922e24be14c793691c521d5');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"today","rule":"vision-worse"}','3e15f628f0603acccb70355a5497ad748dcecd355922e24be14c793691c521d5','c8ca3cf14dd7b13af4431c0d661d10dd51e82f0e64eb3deb25473af93600bf10');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','event measures','01a21616-23db-7641-97a4-ef42100ddee4','{"id":"01a21616-23f4-7435-82d2-2c942f320846"}','c8ca3cf14dd7b13af4431c0d661d10dd51e82f0e64eb3deb25473af93600bf10','ceb91f2c6038bed0cb94867df7d192f67c974f10c89aa1a16058f99fbeb60581');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','event seen','01a21616-23db-7641-97a4-ef42100ddee4','{"id":"01a21616-23f5-72a0-933d-5e429ccb251a"}','ceb91f2c6038bed0cb94867df7d192f67c974f10c89aa1a16058f99fbeb60581','eeeab4174f4dc6edc8ef797b99b43320263b4a54da914cb8aaa6450f56003c05');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"now","rule":"pressure-severe"}','eeeab4174f4dc6edc8ef797b99b43320263b4a54da914cb8aaa6450f56003c05','897dd862eb2165008f3cc6943ff1f48dc463cbed937b82dc8acb626283908ca0');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"today","rule":"pressure-spike"}','897dd862eb2165008f3cc6943ff1f48dc463cbed937b82dc8acb626283908ca0','71e137dc9f4b727a12d87f598616dbe0df38b70718e37e2572e7049337addb75');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"this-week","rule":"pressure-raised"}','71e137dc9f4b727a12d87f598616dbe0df38b70718e37e2572e7049337addb75','e2823cb871eccdf9851cf4c73f2e6fcb877a10bfdda39488d1f5422e6ef079c3');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23db-7641-97a4-ef42100ddee4','{"how_soon":"this-week","rule":"pressure-rise"}','e2823cb871eccdf9851cf4c73f2e6fcb877a10bfdda39488d1f5422e6ef079c3','17087cacbd9b9c68ee3667c273ff35b60182808c54b66eec1524b0b9e3f78e84');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','event measures','01a21616-23dc-719e-8f26-115e8e9757dc','{"id":"01a21616-23fb-72ca-9242-2e698589cb36"}','17087cacbd9b9c68ee3667c273ff35b60182808c54b66eec1524b0b9e3f78e84','5bca24e477d5c3dca2b7f2d9221c4332708f000fb50be574c78cded67c5b40b9');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23dc-719e-8f26-115e8e9757dc','{"how_soon":"today","rule":"missed-early-visit"}','5bca24e477d5c3dca2b7f2d9221c4332708f000fb50be574c78cded67c5b40b9','0e42e3476d2049ccdd910f14d1add3bb645c0f138815aebe796e31ad74c8c617');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23dc-719e-8f26-115e8e9757dc','{"how_soon":"today","rule":"no-posture-entry"}','0e42e3476d2049ccdd910f14d1add3bb645c0f138815aebe796e31ad74c8c617','83b0f6540fc075c225e065e7705d9b949c32da4298cd78798d9ffa343533af35');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-23dc-719e-8f26-115e8e9757dc','{"how_soon":"today","rule":"silent-while-posturing"}','83b0f6540fc075c225e065e7705d9b949c32da4298cd78798d9ffa343533af35','ba5faa44295106025b3feaf3fcb8821df87cd2ea8e18258cd797d2a635a0833c');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','callback claimed','01a21616-23f2-7765-bfd9-0e9b5293b71f','null','ba5faa44295106025b3feaf3fcb8821df87cd2ea8e18258cd797d2a635a0833c','b0ef81fa15dede91c52c3969d8c8c854c94c39d3821480a8e52b5fa22e22cb19');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','callback attempt','01a21616-23f2-7765-bfd9-0e9b5293b71f','{"reached":true}','b0ef81fa15dede91c52c3969d8c8c854c94c39d3821480a8e52b5fa22e22cb19','30b41157a9cb00bd92ad29ee815fe9d99c38197e7511c1e7d55b64dd49f7d702');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','extra visit','01a21616-23db-7641-97a4-ef42100ddee4','{"on":"2027-03-05"}','30b41157a9cb00bd92ad29ee815fe9d99c38197e7511c1e7d55b64dd49f7d702','08ae3158d3c3062c84d1f92b2de18feb5aebd6d9b9b908e92b5cc29abe0285ac');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','callback decided','01a21616-23f2-7765-bfd9-0e9b5293b71f','{"outcome":"same-day"}','08ae3158d3c3062c84d1f92b2de18feb5aebd6d9b9b908e92b5cc29abe0285ac','1a8787657ebe828ee69f08b886dd43db3954a8ba1a1273dabcf0d591868fbc68');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','surgeon:01a21616-23da-7146-b54b-fe3265aef9f5','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','1a8787657ebe828ee69f08b886dd43db3954a8ba1a1273dabcf0d591868fbc68','04a7e3213bddad0590aa08041d7d39e487c2a0241be40b4ce79a2e966cf58bbe');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21616-23ec-75b8-a4f4-84dcc4fea002','01a21616-23ec-75b8-a4f4-84db7153844d','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-23ec-75b8-a4f4-84dfff0eed5b','01a21616-23ec-75b8-a4f4-84de26029a47','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-23ec-75b8-a4f4-84e2beecbaa7','01a21616-23ec-75b8-a4f4-84e10d2a3ca2','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-23ec-75b8-a4f4-84e40f58bd12','01a21616-23ec-75b8-a4f4-84e10d2a3ca2','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21616-23f2-7765-bfd9-0e9c1e16ed9e','01a21616-23f2-7765-bfd9-0e9b5293b71f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21616-23f2-7765-bfd9-0e9fcf7a334e','01a21616-23f2-7765-bfd9-0e9e6f99967a','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21616-23f2-7765-bfd9-0ea2b13859be','01a21616-23f2-7765-bfd9-0ea1ba99ab53','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21616-23f2-7765-bfd9-0ea4cf21d78e','01a21616-23f2-7765-bfd9-0e9e6f99967a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21616-23f2-7765-bfd9-0ea6ef0897d1','01a21616-23f2-7765-bfd9-0ea1ba99ab53','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21616-23f9-7057-8cb6-8dd0a7ff64e3','01a21616-23f2-7765-bfd9-0e9e6f99967a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21616-23fa-70c9-baa1-fc69818f30ac','01a21616-23f2-7765-bfd9-0e9e6f99967a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21616-23fa-70c9-baa1-fc6ba01418a4','01a21616-23f2-7765-bfd9-0e9e6f99967a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21616-23fa-70c9-baa1-fc6d8dd04ac8','01a21616-23f2-7765-bfd9-0e9e6f99967a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21616-23ff-7616-82a2-b4ca9e7acfdd','01a21616-23ff-7616-82a2-b4c983dbb84c','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-23ff-7616-82a2-b4cd790d9f66','01a21616-23ff-7616-82a2-b4cc6befaf6b','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-23ff-7616-82a2-b4cf6c3a96db','01a21616-23ff-7616-82a2-b4cc6befaf6b','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-2400-758c-a202-f1de663ee22f','01a21616-23f2-7765-bfd9-0e9b5293b71f','2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21616-2404-71b1-af63-bd797d7601fe','01a21616-23f2-7765-bfd9-0e9b5293b71f','2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21616-2465-737d-90f4-7ca5d87cac49','01a21616-23f2-7765-bfd9-0e9b5293b71f','2027-03-05T10:00:00.000000Z','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','decided','{"by":"Nora Nurse","outcome":"same-day","task":"01a21616-2465-737d-90f4-7ca40a0404b0","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21616-23ec-75b8-a4f4-84db7153844d','01a21616-23db-7641-97a4-ef42100ddee4','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-23ec-75b8-a4f4-84de26029a47','01a21616-23db-7641-97a4-ef42100ddee4','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-23ec-75b8-a4f4-84e10d2a3ca2','01a21616-23db-7641-97a4-ef42100ddee4','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-23f2-7765-bfd9-0e9b5293b71f','01a21616-23db-7641-97a4-ef42100ddee4','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','claimed','01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-05T10:00:00.000000Z',NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-23f2-7765-bfd9-0e9e6f99967a','01a21616-23db-7641-97a4-ef42100ddee4','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-23f2-7765-bfd9-0ea1ba99ab53','01a21616-23db-7641-97a4-ef42100ddee4','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-23ff-7616-82a2-b4c983dbb84c','01a21616-23dc-719e-8f26-115e8e9757dc','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-23ff-7616-82a2-b4cc6befaf6b','01a21616-23dc-719e-8f26-115e8e9757dc','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21616-23de-7652-99ce-df1366b4b709','01a21616-23db-7641-97a4-ef418426d6c4','6e1fb21f3b5196ed37fac91e5f7ac70716f5fbd8e44d6f6463cae1d29dc1c61e','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21616-23db-7641-97a4-ef4681b2635d','01a21616-23db-7641-97a4-ef418426d6c4','1c598c61032688aa6b51a1a34ce482c9392abcdacbbb99a9d109cdb32048dac7','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21616-23dc-719e-8f26-1162cbaae04d','01a21616-23dc-719e-8f26-115d5d7e0ed0','5663273d4f8845381f861453c29dc3901e3c0b71e113590edd8017aba29726c2','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        ) STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21616-23db-7641-97a4-ef42100ddee4','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21616-23de-7652-99ce-df1366b4b709','01a21616-23de-7652-99ce-df1366b4b709',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21616-23db-7641-97a4-ef42100ddee4','symptoms','2027-03-05T09:00:00.000000Z','{"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21616-23de-7652-99ce-df1366b4b709','01a21616-23de-7652-99ce-df1366b4b709',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-23f4-7435-82d2-2c942f320846','01a21616-23db-7641-97a4-ef42100ddee4','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-23f5-72a0-933d-5e429ccb251a','01a21616-23db-7641-97a4-ef42100ddee4','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21616-23db-7641-97a4-ef44f8820301"}','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-23fb-72ca-9242-2e698589cb36','01a21616-23dc-719e-8f26-115e8e9757dc','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-2405-715d-9c58-f5eed85efb0a','01a21616-23db-7641-97a4-ef42100ddee4','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
CREATE TABLE job_slots (job TEXT NOT NULL, slot TEXT NOT NULL, taken_at TEXT NOT NULL, PRIMARY KEY (job, slot)) STRICT;
CREATE TABLE looks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, at TEXT NOT NULL, who TEXT NOT NULL
        ) STRICT;
CREATE TABLE message_choices (
            person TEXT PRIMARY KEY, email TEXT NOT NULL, language TEXT NOT NULL, quiet_from TEXT NOT NULL,
            quiet_to TEXT NOT NULL, unwanted TEXT NOT NULL, chosen_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE messages (
            key TEXT PRIMARY KEY, person TEXT NOT NULL, kind TEXT NOT NULL, about TEXT NOT NULL, made_at TEXT NOT NULL,
            useless_after TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'sending', 'sent', 'dropped')),
            tries INTEGER NOT NULL DEFAULT 0, next_try_at TEXT NOT NULL, taken_at TEXT, ended_at TEXT,
            detail TEXT NOT NULL DEFAULT ''
        ) STRICT;
CREATE TABLE operation_records (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operation_records" VALUES('01a21616-23db-7641-97a4-ef43dddd0df0','01a21616-23db-7641-97a4-ef42100ddee4','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-02T19:00:00.000000Z');
INSERT INTO "operation_records" VALUES('01a21616-23dc-719e-8f26-115f33cd6e3a','01a21616-23dc-719e-8f26-115e8e9757dc','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-02T19:00:00.000000Z');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
INSERT INTO "operations" VALUES('01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23db-7641-97a4-ef418426d6c4','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "operations" VALUES('01a21616-23dc-719e-8f26-115e8e9757dc','01a21616-23dc-719e-8f26-115d5d7e0ed0','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "patients" VALUES('01a21616-23db-7641-97a4-ef418426d6c4','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
INSERT INTO "patients" VALUES('01a21616-23dc-719e-8f26-115d5d7e0ed0','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE push_subscriptions (
            endpoint TEXT PRIMARY KEY, person TEXT NOT NULL, device_id TEXT REFERENCES devices, p256dh TEXT NOT NULL,
            auth TEXT NOT NULL, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, operation_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23de-7652-99ce-df1366b4b709','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21616-23db-7641-97a4-ef42100ddee4", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21616-2468-7198-858d-e4058eba2e7a','reviews','8409d8bc694c76d2','01a21616-23da-7146-b54b-fe3265aef9f5','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a21616-23d9-7538-a270-f8bfb1fc44ac','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$ND0RFewZ/JtNIWnsHUgvew$CFhMdKmTqycwqT9KE5q9firB12HvGEQIVEbld4R47Ww','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a21616-23da-7146-b54b-fe3265aef9f5','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$EtrhizAqyRfxgukll6x+vw$KcyGFLp8geHV38VBWmN6biOiRKsVaRvmLGdxy50UiGY','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "tasks" VALUES('01a21616-2465-737d-90f4-7ca40a0404b0','01a21616-23f2-7765-bfd9-0e9b5293b71f','01a21616-23db-7641-97a4-ef42100ddee4','come-today','comes at two','01a21616-2465-737d-90f4-7ca38c40cf89','01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-05T11:00:00.000000Z','01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-05T10:00:00.000000Z',NULL,NULL,NULL,'',0);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21616-23db-7641-97a4-ef44f8820301','01a21616-23db-7641-97a4-ef42100ddee4','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-23db-7641-97a4-ef44f8820301');
INSERT INTO "visits" VALUES('01a21616-23db-7641-97a4-ef454744d4b2','01a21616-23db-7641-97a4-ef42100ddee4','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-23db-7641-97a4-ef454744d4b2');
INSERT INTO "visits" VALUES('01a21616-23dc-719e-8f26-1160c6983da8','01a21616-23dc-719e-8f26-115e8e9757dc','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-23dc-719e-8f26-1160c6983da8');
INSERT INTO "visits" VALUES('01a21616-23dc-719e-8f26-11619863c8e3','01a21616-23dc-719e-8f26-115e8e9757dc','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-23dc-719e-8f26-11619863c8e3');
INSERT INTO "visits" VALUES('01a21616-2465-737d-90f4-7ca38c40cf89','01a21616-23db-7641-97a4-ef42100ddee4','extra visit','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a21616-23d9-7538-a270-f8bfb1fc44ac','2027-03-05T10:00:00.000000Z',NULL,0,'01a21616-2465-737d-90f4-7ca38c40cf89');
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (operation_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a21616-23ec-75b8-a4f4-84dd3d5a0867','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23ec-75b8-a4f4-84db7153844d','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23ec-75b8-a4f4-84e0736b0a71','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23ec-75b8-a4f4-84de26029a47','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23ec-75b8-a4f4-84e3080ed2b4','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23ec-75b8-a4f4-84e10d2a3ca2','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23ec-75b8-a4f4-84e51089c0d4','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23ec-75b8-a4f4-84e10d2a3ca2','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23f2-7765-bfd9-0e9da9681756','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23f2-7765-bfd9-0e9b5293b71f','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23f2-7765-bfd9-0ea006cd6a21','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23f2-7765-bfd9-0e9e6f99967a','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23f2-7765-bfd9-0ea36c2fd3ea','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23f2-7765-bfd9-0ea1ba99ab53','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23f2-7765-bfd9-0ea54c12434c','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23f2-7765-bfd9-0e9e6f99967a','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23f2-7765-bfd9-0ea75734fc96','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23f2-7765-bfd9-0ea1ba99ab53','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23fa-70c9-baa1-fc68d14f9aa7','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23f2-7765-bfd9-0e9e6f99967a','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23fa-70c9-baa1-fc6a1da0d09c','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23f2-7765-bfd9-0e9e6f99967a','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23fa-70c9-baa1-fc6c7d1fd5b0','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23f2-7765-bfd9-0e9e6f99967a','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23fa-70c9-baa1-fc6e5115309e','01a21616-23db-7641-97a4-ef42100ddee4','01a21616-23f2-7765-bfd9-0e9e6f99967a','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23ff-7616-82a2-b4cbe576c297','01a21616-23dc-719e-8f26-115e8e9757dc','01a21616-23ff-7616-82a2-b4c983dbb84c','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23ff-7616-82a2-b4cefcf702f6','01a21616-23dc-719e-8f26-115e8e9757dc','01a21616-23ff-7616-82a2-b4cc6befaf6b','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-23ff-7616-82a2-b4d084cd37d9','01a21616-23dc-719e-8f26-115e8e9757dc','01a21616-23ff-7616-82a2-b4cc6befaf6b','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE INDEX devices_of_patient ON devices (patient_id);
CREATE INDEX tries_by_key ON tries (what, key, at);
CREATE INDEX operations_of_patient ON operations (patient_id);
CREATE INDEX records_of_operation ON operation_records (operation_id, recorded_at);
CREATE INDEX visits_of_operation ON visits (operation_id);
CREATE INDEX visits_by_date ON visits (target);
CREATE UNIQUE INDEX visits_replaced_once ON visits (replaces);
CREATE INDEX events_of_operation ON events (operation_id, at);
CREATE INDEX events_corrected ON events (corrects);
CREATE INDEX looks_of_operation ON looks (operation_id, at);
CREATE UNIQUE INDEX one_open_callback ON callbacks (operation_id, worry) WHERE state != 'settled';
CREATE INDEX callbacks_open ON callbacks (state, due_at);
CREATE INDEX steps_of_callback ON callback_steps (callback_id, at);
CREATE INDEX warnings_of_callback ON warnings (callback_id);
CREATE TRIGGER operation_records_keeps_update BEFORE UPDATE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_keeps_delete BEFORE DELETE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER visits_keeps_delete BEFORE DELETE ON visits BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
CREATE TRIGGER events_keeps_update BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER events_keeps_delete BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_update BEFORE UPDATE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_delete BEFORE DELETE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_update BEFORE UPDATE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_delete BEFORE DELETE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_update BEFORE UPDATE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_delete BEFORE DELETE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER callback_steps_keeps_update BEFORE UPDATE ON callback_steps BEGIN SELECT RAISE(ABORT, 'callback_steps is append-only: record a correction instead'); END;
CREATE TRIGGER callback_steps_keeps_delete BEFORE DELETE ON callback_steps BEGIN SELECT RAISE(ABORT, 'callback_steps is append-only: record a correction instead'); END;
CREATE TRIGGER protocol_texts_keeps_update BEFORE UPDATE ON protocol_texts BEGIN SELECT RAISE(ABORT, 'protocol_texts is append-only: record a correction instead'); END;
CREATE TRIGGER protocol_texts_keeps_delete BEFORE DELETE ON protocol_texts BEGIN SELECT RAISE(ABORT, 'protocol_texts is append-only: record a correction instead'); END;
CREATE TRIGGER signatures_keeps_update BEFORE UPDATE ON signatures BEGIN SELECT RAISE(ABORT, 'signatures is append-only: record a correction instead'); END;
CREATE TRIGGER signatures_keeps_delete BEFORE DELETE ON signatures BEGIN SELECT RAISE(ABORT, 'signatures is append-only: record a correction instead'); END;
CREATE TRIGGER audit_keeps_update BEFORE UPDATE ON audit BEGIN SELECT RAISE(ABORT, 'audit is append-only: record a correction instead'); END;
CREATE TRIGGER audit_keeps_delete BEFORE DELETE ON audit BEGIN SELECT RAISE(ABORT, 'audit is append-only: record a correction instead'); END;
CREATE INDEX subscriptions_of_person ON push_subscriptions (person);
CREATE INDEX messages_open ON messages (state, next_try_at);
CREATE INDEX messages_of_person ON messages (person, made_at);
CREATE INDEX tasks_of_callback ON tasks (callback_id, done_at);
CREATE INDEX visits_by_identity ON visits (identity);
CREATE TRIGGER visits_keeps_update BEFORE UPDATE ON visits
        BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
COMMIT;
