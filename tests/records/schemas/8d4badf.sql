BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 04:21:21.187807+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 04:21:21.202834+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 04:21:21.218318+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 04:21:21.225433+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 04:21:21.237883+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 04:21:21.244668+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 04:21:21.247366+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 04:21:21.257759+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 04:21:21.260911+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 04:21:21.265010+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-2af3-765c-ac25-550b9b458da9','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','c7e977b2269fa4b6f5d96f66e52085aa734dcfca914e23a5d7186aa71bd9b35a');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-2af6-72b0-9943-8e93d89d7b7e','{"role":"surgeon"}','c7e977b2269fa4b6f5d96f66e52085aa734dcfca914e23a5d7186aa71bd9b35a','f470c5ba4f7c7594ff7af10763397ea71d22a7ae92b0cc51c6764e5584f574cc');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','enrolment code','01a21616-2af9-71d1-84d0-e557f678b1f0','null','f470c5ba4f7c7594ff7af10763397ea71d22a7ae92b0cc51c6764e5584f574cc','b652d822ad6b98e76121b5e9b4b375f344d24ed30086761cca585bc1a2b56f64');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','discharge','01a21616-2af9-71d1-84d0-e5580a558919','{"agent":"c2f6","eye":"right"}','b652d822ad6b98e76121b5e9b4b375f344d24ed30086761cca585bc1a2b56f64','1dc03cd157920147582bc04604cd89aa78417442ba0992bb25762c7d76ab313d');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','enrolment code','01a21616-2b00-73d9-9d4e-61dea5308776','null','1dc03cd157920147582bc04604cd89aa78417442ba0992bb25762c7d76ab313d','5e7197ea158d36d8d809179c4bf0f3b6bfaceada722017d48dc01c2d63754490');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','discharge','01a21616-2b01-75e8-95df-619be4e3de33','{"agent":"silicone-oil","eye":"right"}','5e7197ea158d36d8d809179c4bf0f3b6bfaceada722017d48dc01c2d63754490','4a2e656b84c126ff617ca9515e0772225c1225f6426aafe087f9a229924ad8d9');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21616-2b05-7160-bd96-8b95621719fd','device enrolled','01a21616-2af9-71d1-84d0-e557f678b1f0','null','4a2e656b84c126ff617ca9515e0772225c1225f6426aafe087f9a229924ad8d9','94ae1b9cbec7fbf68f3f78b46d2cd14cb8446e267ba9fae57bcc893d6b5fa343');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21616-2b05-7160-bd96-8b95621719fd','event posture','01a21616-2af9-71d1-84d0-e5580a558919','{"id":"0195e5a0-0000-7000-8000-000000000001"}','94ae1b9cbec7fbf68f3f78b46d2cd14cb8446e267ba9fae57bcc893d6b5fa343','7df5a1df86edf40538a8bc307bddb48ab5859ca22a24082ff6f6b53fb29fc74e');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"today","rule":"missed-early-visit"}','7df5a1df86edf40538a8bc307bddb48ab5859ca22a24082ff6f6b53fb29fc74e','d7e44a6ec64dcea23cdf2ed8f0625d281773c2afd9c0a1855d0b6de2f425269b');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"today","rule":"posture-missed"}','d7e44a6ec64dcea23cdf2ed8f0625d281773c2afd9c0a1855d0b6de2f425269b','1709365287972b242bb64699169c206700070a2c5b6d899f36b072a6509eae29');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"today","rule":"silent-while-posturing"}','1709365287972b242bb64699169c206700070a2c5b6d899f36b072a6509eae29','37c8d551e5e3216ca25821d72237da5bcf13fe201d63c256cde8bca0dc8aef0f');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"today","rule":"no-posture-entry"}','37c8d551e5e3216ca25821d72237da5bcf13fe201d63c256cde8bca0dc8aef0f','f704bb2a7eaf1a66b1edbea9b3f36b5575af0ac35822ede8bab542eee9a2cdc7');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21616-2b05-7160-bd96-8b95621719fd','event symptoms','01a21616-2af9-71d1-84d0-e5580a558919','{"id":"0195e5a0-0000-7000-8000-000000000002"}','f704bb2a7eaf1a66b1edbea9b3f36b5575af0ac35822ede8bab542eee9a2cdc7','27417d74a8d47a325196f9c9eb935f24227ae6fe8a62dc723064adf1a292f15c');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"now","rule":"infection-suspected"}','27417d74a8d47a325196f9c9eb935f24227ae6fe8a62dc723064adf1a292f15c','1443690e1b16cd91ee615bc93ed3e4a13ecf2decffbb09833d471845aa90e29a');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"now","rule":"severe-pain"}','1443690e1b16cd91ee615bc93ed3e4a13ecf2decffbb09833d471845aa90e29a','6b7dd0f6d5f1e632e801c226a2fe6891adcc0f8af74e9fe85b6be94a4b45cac5');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"today","rule":"curtain"}','6b7dd0f6d5f1e632e801c226a2fe6891adcc0f8af74e9fe85b6be94a4b45cac5','b8c933920d0c73820b0ef43640071b41bb7bee3bd6c9c133fab0ea6d8feb5f26');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"today","rule":"pain"}','b8c933920d0c73820b0ef43640071b41bb7bee3bd6c9c133fab0ea6d8feb5f26','baeda902ff9c65ae9c6fa18703877e16442da89f72ee8e8c9eca7920d0e0ba3f');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"today","rule":"vision-worse"}','baeda902ff9c65ae9c6fa18703877e16442da89f72ee8e8c9eca7920d0e0ba3f','667ccdf8f6205b54ebf56d490cc4f5c11998470714060b926e5bcd60d18227c3');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','event measures','01a21616-2af9-71d1-84d0-e5580a558919','{"id":"01a21616-2b2e-70f6-bd0e-6868688f3fcf"}','667ccdf8f6205b54ebf56d490cc4f5c11998470714060b926e5bcd60d18227c3','1259c380519dc2271f906024e1bb843a6d722b8646aab6c4bafe190a16610ed7');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','event seen','01a21616-2af9-71d1-84d0-e5580a558919','{"id":"01a21616-2b30-773b-b704-2cf97cac3554"}','1259c380519dc2271f906024e1bb843a6d722b8646aab6c4bafe190a16610ed7','7f9f6da86c57a2def9798d0e717d4a9158128058dd1f6815a93cb95e78e046ec');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"now","rule":"pressure-severe"}','7f9f6da86c57a2def9798d0e717d4a9158128058dd1f6815a93cb95e78e046ec','9c91caa5bc1ad85e08e4348bfbd2fda9007a37b00678954f693f9254bc57ab10');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"today","rule":"pressure-spike"}','9c91caa5bc1ad85e08e4348bfbd2fda9007a37b00678954f693f9254bc57ab10','af532833b3a14af97f1cad33f95b8118a13d008bd0cd50123e045d680437a3e2');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"this-week","rule":"pressure-raised"}','af532833b3a14af97f1cad33f95b8118a13d008bd0cd50123e045d680437a3e2','0de03aabac4945b2ca30dacb60b0c962d550a117d0b2ddeb47f0c4080aae0b17');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2af9-71d1-84d0-e5580a558919','{"how_soon":"this-week","rule":"pressure-rise"}','0de03aabac4945b2ca30dacb60b0c962d550a117d0b2ddeb47f0c4080aae0b17','790fbfb99032d493fa246c5fe5597a01d33651e348ef79cff158f1fc5886cd23');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','event measures','01a21616-2b01-75e8-95df-619be4e3de33','{"id":"01a21616-2b4c-7399-8ae2-1d31f7921a96"}','790fbfb99032d493fa246c5fe5597a01d33651e348ef79cff158f1fc5886cd23','acf26a37a6acddbdbf1704889390cc650dd6077d33f4a2d835cdcf8f7018d209');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2b01-75e8-95df-619be4e3de33','{"how_soon":"today","rule":"missed-early-visit"}','acf26a37a6acddbdbf1704889390cc650dd6077d33f4a2d835cdcf8f7018d209','c840f30b81cb80f3773fec4e15fe5cdc1e83f81a059acbd63007490f60c8ef8f');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2b01-75e8-95df-619be4e3de33','{"how_soon":"today","rule":"no-posture-entry"}','c840f30b81cb80f3773fec4e15fe5cdc1e83f81a059acbd63007490f60c8ef8f','fb9511643fe80935021104ab0492692aae9f73360e9e92dc9cc4a58ec1c72dc6');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2b01-75e8-95df-619be4e3de33','{"how_soon":"today","rule":"silent-while-posturing"}','fb9511643fe80935021104ab0492692aae9f73360e9e92dc9cc4a58ec1c72dc6','a0e3c826404d571b75a08f414d0625b5798bee5b6cdf962003262a7a86438701');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','callback claimed','01a21616-2b26-715f-86e9-df6d13aba251','null','a0e3c826404d571b75a08f414d0625b5798bee5b6cdf962003262a7a86438701','fb024442aaad9281b931c357d27858a9b9128ddcd83f006b5d7bd9415e257d4f');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','callback attempt','01a21616-2b26-715f-86e9-df6d13aba251','{"reached":true}','fb024442aaad9281b931c357d27858a9b9128ddcd83f006b5d7bd9415e257d4f','c43f3b1711bffd9eeccf3463bd85190f19e63ff5986185f7bccdab97a8aae655');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','extra visit','01a21616-2af9-71d1-84d0-e5580a558919','{"on":"2027-03-05"}','c43f3b1711bffd9eeccf3463bd85190f19e63ff5986185f7bccdab97a8aae655','647407ca306d46dc1dd44da89dfcb5d1c89fec39accf7ffb4e0b99269afb343d');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','callback decided','01a21616-2b26-715f-86e9-df6d13aba251','{"outcome":"same-day"}','647407ca306d46dc1dd44da89dfcb5d1c89fec39accf7ffb4e0b99269afb343d','4137452323f6524ecf4009fc489e7ee8b3ebf9090acd249ba9a48d99096da9a6');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','surgeon:01a21616-2af6-72b0-9943-8e93d89d7b7e','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','4137452323f6524ecf4009fc489e7ee8b3ebf9090acd249ba9a48d99096da9a6','9ea400f832ba87fbe1f59310ecc4ac2ef3dc75f0f8289571f2417047f9bea7ae');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21616-2b20-766d-83c7-202474a33e82','01a21616-2b20-766d-83c7-2023772aeb35','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b20-766d-83c7-202752482deb','01a21616-2b20-766d-83c7-2026f4d36d28','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b20-766d-83c7-202a3ce15713','01a21616-2b20-766d-83c7-20293ed6e557','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b20-766d-83c7-202c55d22693','01a21616-2b20-766d-83c7-20293ed6e557','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b26-715f-86e9-df6e02ea5265','01a21616-2b26-715f-86e9-df6d13aba251','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b27-767c-a772-634cee68fb57','01a21616-2b27-767c-a772-634b14c2c986','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b27-767c-a772-634fd8a60e4e','01a21616-2b27-767c-a772-634e84ba97d7','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b27-767c-a772-6351aa618946','01a21616-2b27-767c-a772-634b14c2c986','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b27-767c-a772-63531218c401','01a21616-2b27-767c-a772-634e84ba97d7','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b38-71ba-a3ba-9cf77afd182d','01a21616-2b27-767c-a772-634b14c2c986','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b38-71ba-a3ba-9cf99318352e','01a21616-2b27-767c-a772-634b14c2c986','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b38-71ba-a3ba-9cfb3843632d','01a21616-2b27-767c-a772-634b14c2c986','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b39-718c-a556-3cffa4eaf563','01a21616-2b27-767c-a772-634b14c2c986','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b63-77ef-a0e2-ff93429b97e0','01a21616-2b63-77ef-a0e2-ff920a426e0a','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b63-77ef-a0e2-ff965f618147','01a21616-2b63-77ef-a0e2-ff95dbfb620a','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b63-77ef-a0e2-ff9866a45d67','01a21616-2b63-77ef-a0e2-ff95dbfb620a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-2b6d-7778-b5ea-d43ef8cee4be','01a21616-2b26-715f-86e9-df6d13aba251','2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21616-2cb3-7326-a1c4-f4bdd8e8ce00','01a21616-2b26-715f-86e9-df6d13aba251','2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21616-2cc2-70b8-ab8c-cd076a34a3c1','01a21616-2b26-715f-86e9-df6d13aba251','2027-03-05T10:00:00.000000Z','nurse:01a21616-2af3-765c-ac25-550b9b458da9','decided','{"by":"Nora Nurse","outcome":"same-day","task":"01a21616-2cc2-70b8-ab8c-cd06b85ab23c","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21616-2b20-766d-83c7-2023772aeb35','01a21616-2af9-71d1-84d0-e5580a558919','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2b20-766d-83c7-2026f4d36d28','01a21616-2af9-71d1-84d0-e5580a558919','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2b20-766d-83c7-20293ed6e557','01a21616-2af9-71d1-84d0-e5580a558919','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2b26-715f-86e9-df6d13aba251','01a21616-2af9-71d1-84d0-e5580a558919','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','claimed','01a21616-2af3-765c-ac25-550b9b458da9','2027-03-05T10:00:00.000000Z',NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2b27-767c-a772-634b14c2c986','01a21616-2af9-71d1-84d0-e5580a558919','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2b27-767c-a772-634e84ba97d7','01a21616-2af9-71d1-84d0-e5580a558919','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2b63-77ef-a0e2-ff920a426e0a','01a21616-2b01-75e8-95df-619be4e3de33','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2b63-77ef-a0e2-ff95dbfb620a','01a21616-2b01-75e8-95df-619be4e3de33','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21616-2b05-7160-bd96-8b95621719fd','01a21616-2af9-71d1-84d0-e557f678b1f0','19e22bb122ec44441e37c59e8aa0b65169d913c4fd40028e3c6a84e31f3680e4','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21616-2af9-71d1-84d0-e55c6620832e','01a21616-2af9-71d1-84d0-e557f678b1f0','b85ca202ad5c2012e0bf18c647392a4cec8421782d26732a90ca2d78a65b77a8','nurse:01a21616-2af3-765c-ac25-550b9b458da9','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21616-2b01-75e8-95df-619f5f89ee04','01a21616-2b00-73d9-9d4e-61dea5308776','ce9be417806970f419f939439c02bdcfb0fbf854ef3744dc317930f59fe2f40a','nurse:01a21616-2af3-765c-ac25-550b9b458da9','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        ) STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21616-2af9-71d1-84d0-e5580a558919','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21616-2b05-7160-bd96-8b95621719fd','01a21616-2b05-7160-bd96-8b95621719fd',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21616-2af9-71d1-84d0-e5580a558919','symptoms','2027-03-05T09:00:00.000000Z','{"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21616-2b05-7160-bd96-8b95621719fd','01a21616-2b05-7160-bd96-8b95621719fd',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-2b2e-70f6-bd0e-6868688f3fcf','01a21616-2af9-71d1-84d0-e5580a558919','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21616-2af3-765c-ac25-550b9b458da9',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-2b30-773b-b704-2cf97cac3554','01a21616-2af9-71d1-84d0-e5580a558919','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21616-2af9-71d1-84d0-e55a710a9a4c"}','nurse:01a21616-2af3-765c-ac25-550b9b458da9',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-2b4c-7399-8ae2-1d31f7921a96','01a21616-2b01-75e8-95df-619be4e3de33','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21616-2af3-765c-ac25-550b9b458da9',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-2cb3-7326-a1c4-f4bec2272521','01a21616-2af9-71d1-84d0-e5580a558919','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21616-2af3-765c-ac25-550b9b458da9',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE job_runs (job TEXT PRIMARY KEY, started_at TEXT NOT NULL, ended_at TEXT, result TEXT) STRICT;
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
INSERT INTO "operation_records" VALUES('01a21616-2af9-71d1-84d0-e559e2e4a90f','01a21616-2af9-71d1-84d0-e5580a558919','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-2af3-765c-ac25-550b9b458da9','2027-03-02T19:00:00.000000Z');
INSERT INTO "operation_records" VALUES('01a21616-2b01-75e8-95df-619cbcecd498','01a21616-2b01-75e8-95df-619be4e3de33','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-2af3-765c-ac25-550b9b458da9','2027-03-02T19:00:00.000000Z');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
INSERT INTO "operations" VALUES('01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2af9-71d1-84d0-e557f678b1f0','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "operations" VALUES('01a21616-2b01-75e8-95df-619be4e3de33','01a21616-2b00-73d9-9d4e-61dea5308776','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "patients" VALUES('01a21616-2af9-71d1-84d0-e557f678b1f0','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
INSERT INTO "patients" VALUES('01a21616-2b00-73d9-9d4e-61dea5308776','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b05-7160-bd96-8b95621719fd','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21616-2af9-71d1-84d0-e5580a558919", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21616-2cc5-70a7-869f-beb8e9919472','reviews','8409d8bc694c76d2','01a21616-2af6-72b0-9943-8e93d89d7b7e','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a21616-2af3-765c-ac25-550b9b458da9','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$k+B4gLoeO1jfZXJCb0jLqQ$xRliSTkCEOH038KwIXuPXf66lY0TspyKpSxH232YQfc','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a21616-2af6-72b0-9943-8e93d89d7b7e','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$9nFT6WfO7T7nIF9o13dYNA$U78GP9GSfCsZ4dQGWVfl+m81MaLiVfui2fDozdSkKxA','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "tasks" VALUES('01a21616-2cc2-70b8-ab8c-cd06b85ab23c','01a21616-2b26-715f-86e9-df6d13aba251','01a21616-2af9-71d1-84d0-e5580a558919','come-today','comes at two','01a21616-2cc2-70b8-ab8c-cd05773e69e5','01a21616-2af3-765c-ac25-550b9b458da9','2027-03-05T11:00:00.000000Z','01a21616-2af3-765c-ac25-550b9b458da9','2027-03-05T10:00:00.000000Z',NULL,NULL,NULL,'',0);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21616-2af9-71d1-84d0-e55a710a9a4c','01a21616-2af9-71d1-84d0-e5580a558919','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-2af3-765c-ac25-550b9b458da9','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-2af9-71d1-84d0-e55a710a9a4c');
INSERT INTO "visits" VALUES('01a21616-2af9-71d1-84d0-e55be00eabdb','01a21616-2af9-71d1-84d0-e5580a558919','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-2af3-765c-ac25-550b9b458da9','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-2af9-71d1-84d0-e55be00eabdb');
INSERT INTO "visits" VALUES('01a21616-2b01-75e8-95df-619dd7a69102','01a21616-2b01-75e8-95df-619be4e3de33','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-2af3-765c-ac25-550b9b458da9','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-2b01-75e8-95df-619dd7a69102');
INSERT INTO "visits" VALUES('01a21616-2b01-75e8-95df-619e323fc2ff','01a21616-2b01-75e8-95df-619be4e3de33','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-2af3-765c-ac25-550b9b458da9','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-2b01-75e8-95df-619e323fc2ff');
INSERT INTO "visits" VALUES('01a21616-2cc2-70b8-ab8c-cd05773e69e5','01a21616-2af9-71d1-84d0-e5580a558919','extra visit','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a21616-2af3-765c-ac25-550b9b458da9','2027-03-05T10:00:00.000000Z',NULL,0,'01a21616-2cc2-70b8-ab8c-cd05773e69e5');
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (operation_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a21616-2b20-766d-83c7-2025324b5a0b','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b20-766d-83c7-2023772aeb35','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b20-766d-83c7-202815756776','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b20-766d-83c7-2026f4d36d28','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b20-766d-83c7-202b0805e985','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b20-766d-83c7-20293ed6e557','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b20-766d-83c7-202d4908fbd2','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b20-766d-83c7-20293ed6e557','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b26-715f-86e9-df6f96f81988','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b26-715f-86e9-df6d13aba251','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b27-767c-a772-634dd368dba0','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b27-767c-a772-634b14c2c986','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b27-767c-a772-63501522fcb0','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b27-767c-a772-634e84ba97d7','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b27-767c-a772-6352f8170df6','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b27-767c-a772-634b14c2c986','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b27-767c-a772-6354b9bcf6ec','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b27-767c-a772-634e84ba97d7','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b38-71ba-a3ba-9cf8d131d1bb','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b27-767c-a772-634b14c2c986','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b38-71ba-a3ba-9cfa82c68597','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b27-767c-a772-634b14c2c986','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b38-71ba-a3ba-9cfc92d6d639','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b27-767c-a772-634b14c2c986','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b39-718c-a556-3d00c0fa767d','01a21616-2af9-71d1-84d0-e5580a558919','01a21616-2b27-767c-a772-634b14c2c986','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b63-77ef-a0e2-ff94875e77d7','01a21616-2b01-75e8-95df-619be4e3de33','01a21616-2b63-77ef-a0e2-ff920a426e0a','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b63-77ef-a0e2-ff979483a9db','01a21616-2b01-75e8-95df-619be4e3de33','01a21616-2b63-77ef-a0e2-ff95dbfb620a','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2b64-706e-a1ad-b7705921e731','01a21616-2b01-75e8-95df-619be4e3de33','01a21616-2b63-77ef-a0e2-ff95dbfb620a','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
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
CREATE TRIGGER patients_bounds_birth BEFORE INSERT ON patients WHEN NEW.born_on NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.born_on, '+0 days') IS NOT NEW.born_on OR NEW.born_on NOT BETWEEN '1900-01-01' AND date(NEW.created_at, '+1 day') BEGIN SELECT RAISE(ABORT, 'patients: born between 1900 and today'); END;
CREATE TRIGGER patients_bounds_corrected_birth BEFORE UPDATE OF born_on ON patients WHEN NEW.born_on NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.born_on, '+0 days') IS NOT NEW.born_on OR NEW.born_on NOT BETWEEN '1900-01-01' AND '2200-12-31' BEGIN SELECT RAISE(ABORT, 'patients: born between 1900 and today'); END;
CREATE TRIGGER operation_records_bounds_surgery BEFORE INSERT ON operation_records WHEN NEW.operated_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.operated_at, '+0 days') IS NOT substr(NEW.operated_at, 1, 10) OR NEW.recorded_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10) OR NEW.operated_at < '1989-12-31' OR julianday(NEW.operated_at) > julianday(NEW.recorded_at) + 1 OR NOT json_valid(NEW.body) BEGIN SELECT RAISE(ABORT, 'operation_records: surgery lies between 1990 and now'); END;
CREATE TRIGGER visits_bounds_visit BEFORE INSERT ON visits WHEN NEW.target NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.target, '+0 days') IS NOT NEW.target OR NEW.earliest NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.earliest, '+0 days') IS NOT NEW.earliest OR NEW.latest NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.latest, '+0 days') IS NOT NEW.latest OR NEW.recorded_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10) OR min(NEW.target, NEW.earliest, NEW.latest) < date((SELECT max(operated_at) FROM operation_records r WHERE r.operation_id = NEW.operation_id), '-1 day') OR max(NEW.target, NEW.earliest, NEW.latest) > max(date((SELECT max(operated_at) FROM operation_records r WHERE r.operation_id = NEW.operation_id), '+3 years', '+1 day'), date(NEW.recorded_at, '+1 year', '+1 day')) BEGIN SELECT RAISE(ABORT, 'visits: visits lie within three years after surgery'); END;
CREATE TRIGGER events_bounds_event BEFORE INSERT ON events WHEN NEW.at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.at, '+0 days') IS NOT substr(NEW.at, 1, 10) OR NEW.received_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.received_at, '+0 days') IS NOT substr(NEW.received_at, 1, 10) OR (NEW.device_at IS NOT NULL AND (NEW.device_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.device_at, '+0 days') IS NOT substr(NEW.device_at, 1, 10))) OR NEW.at < '1989-12-31' OR julianday(NEW.at) > julianday(NEW.received_at) + 2 OR NOT json_valid(NEW.body) OR length(NEW.body) > 40000 BEGIN SELECT RAISE(ABORT, 'events: an event lies between 1990 and its arrival and has a readable body'); END;
COMMIT;
