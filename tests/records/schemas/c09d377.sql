BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-25 20:00:46.925378+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-25 20:00:46.927822+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-25 20:00:46.930671+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-25 20:00:46.932047+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144b-e154-73c8-b242-53d17226ea5b','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','06612498091a411d687f18e830faa311443d1a7e18579faae541caa7e3cd70f5');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144b-e155-770c-a8f5-ecbe9b8b7529','{"role":"surgeon"}','06612498091a411d687f18e830faa311443d1a7e18579faae541caa7e3cd70f5','5a535d6ca951b08e6f8433dad1746ec77fd2dfa5b903f64c1be4134744490845');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','enrolment code','01a2144b-e156-77b0-b305-90bb512a0714','null','5a535d6ca951b08e6f8433dad1746ec77fd2dfa5b903f64c1be4134744490845','517e99a5eed0b85599b4bd6db283a7a59edf264a9e1b74701022d9e704c43b34');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','discharge','01a2144b-e156-77b0-b305-90bc481f57b2','{"agent":"c2f6","eye":"right"}','517e99a5eed0b85599b4bd6db283a7a59edf264a9e1b74701022d9e704c43b34','69d1884ac3e31103d84a416d9a0832c8ca9288d5dd7751297fb2b926d228982a');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','enrolment code','01a2144b-e157-7166-990b-ef4fe9c8760b','null','69d1884ac3e31103d84a416d9a0832c8ca9288d5dd7751297fb2b926d228982a','0e3582277b69074171a1c10e0e66132006ac4dbff08142411e6d6db577450edb');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','discharge','01a2144b-e157-7166-990b-ef5017d27bb3','{"agent":"silicone-oil","eye":"right"}','0e3582277b69074171a1c10e0e66132006ac4dbff08142411e6d6db577450edb','f818cf8da1afb624acca3770d020e8288feccc93d1c8e5a7ac3be86eb63ed97d');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a2144b-e158-758d-bb39-713b5119e01a','device enrolled','01a2144b-e156-77b0-b305-90bb512a0714','null','f818cf8da1afb624acca3770d020e8288feccc93d1c8e5a7ac3be86eb63ed97d','4f6d98f3e4d037f4439bb073d5299ab0be5d31ba3592d58ca9e214d681b3ae5c');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a2144b-e158-758d-bb39-713b5119e01a','event posture','01a2144b-e156-77b0-b305-90bc481f57b2','{"id":"0195e5a0-0000-7000-8000-000000000001"}','4f6d98f3e4d037f4439bb073d5299ab0be5d31ba3592d58ca9e214d681b3ae5c','7c6c2dc82e232c26e7a1e32845963256b041d6e74b66700c487e0497d71df908');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"today","rule":"missed-early-visit"}','7c6c2dc82e232c26e7a1e32845963256b041d6e74b66700c487e0497d71df908','0920d70a41e034f6f686be1d3603cad0cb64ad7e9c190110e3f84daf084f75fc');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"today","rule":"posture-missed"}','0920d70a41e034f6f686be1d3603cad0cb64ad7e9c190110e3f84daf084f75fc','edd74698c1a31034de2a01c7a785b9f676a67491ba60cd496e2cb40a0fd1a993');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"today","rule":"silent-while-posturing"}','edd74698c1a31034de2a01c7a785b9f676a67491ba60cd496e2cb40a0fd1a993','ed39dc72d12101f70dccb441f5e1f0aa4a2fda87f90c34ff67f297e9df4cd6ad');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"today","rule":"no-posture-entry"}','ed39dc72d12101f70dccb441f5e1f0aa4a2fda87f90c34ff67f297e9df4cd6ad','5cd6357f70c9f1b91ac67d816af135037ba4c76514cb356f4bd5cfd356cae3ea');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a2144b-e158-758d-bb39-713b5119e01a','event symptoms','01a2144b-e156-77b0-b305-90bc481f57b2','{"id":"0195e5a0-0000-7000-8000-000000000002"}','5cd6357f70c9f1b91ac67d816af135037ba4c76514cb356f4bd5cfd356cae3ea','00ab33affb46d43354df6294bc3235c33a6980aec03bd150ea1d75543f2954cd');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"now","rule":"infection-suspected"}','00ab33affb46d43354df6294bc3235c33a6980aec03bd150ea1d75543f2954cd','0f064f44e37083c2d4dbe31a62f1ce703db816f79a5308b67615a123835fe69f');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"now","rule":"severe-pain"}','0f064f44e37083c2d4dbe31a62f1ce703db816f79a5308b67615a123835fe69f','a65a759c1a74a3e70c24a2c41399420f7c6e159868684ff39871a7912ba3e55d');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"today","rule":"curtain"}','a65a759c1a74a3e70c24a2c41399420f7c6e159868684ff39871a7912ba3e55d','5f4e4d00fd8d35c11a97547abef1f745ba2f6aed5a5db57811ce4b6c46760f8f');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"today","rule":"pain"}','5f4e4d00fd8d35c11a97547abef1f745ba2f6aed5a5db57811ce4b6c46760f8f','b3ab921288b4b76b466379b8e181cc2caf9c6fe7d57854d382f3c986ab3d9cde');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"today","rule":"vision-worse"}','b3ab921288b4b76b466379b8e181cc2caf9c6fe7d57854d382f3c986ab3d9cde','5ddd2a20d215cd1b4b3d23684d4b475fcb0f6a7bf307ddc680d8743f4d8ed55c');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','event measures','01a2144b-e156-77b0-b305-90bc481f57b2','{"id":"01a2144b-e168-762a-8fd2-b4149e037d0f"}','5ddd2a20d215cd1b4b3d23684d4b475fcb0f6a7bf307ddc680d8743f4d8ed55c','8aace47e7bd3801c5b85a2ac1155451feb3951b7ccf9fbf60b4bf059e6c1c0c3');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','event seen','01a2144b-e156-77b0-b305-90bc481f57b2','{"id":"01a2144b-e168-762a-8fd2-b415cbe06499"}','8aace47e7bd3801c5b85a2ac1155451feb3951b7ccf9fbf60b4bf059e6c1c0c3','f228553732e665e35135f3ac8a255207e3c26860f89303cce670de0c37821386');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"now","rule":"pressure-severe"}','f228553732e665e35135f3ac8a255207e3c26860f89303cce670de0c37821386','fa89d37ed0b1f4709c84655546f06ada92f6349cac9d19ec2c994af8f1a3905e');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"today","rule":"pressure-spike"}','fa89d37ed0b1f4709c84655546f06ada92f6349cac9d19ec2c994af8f1a3905e','693395f88b1673b237b3bf17b4e17b92c09c8ebae0305d9c3a47ac8007f574ba');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"this-week","rule":"pressure-raised"}','693395f88b1673b237b3bf17b4e17b92c09c8ebae0305d9c3a47ac8007f574ba','89057c894d3f6b90396843bfc33cb219e556c1c75a4f1c4ef3d1b22898377078');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e156-77b0-b305-90bc481f57b2','{"how_soon":"this-week","rule":"pressure-rise"}','89057c894d3f6b90396843bfc33cb219e556c1c75a4f1c4ef3d1b22898377078','35140924fb043d10ccf1af7b358ac1e0ba0440d5beb25081c1d9d40d034f1bbe');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','event measures','01a2144b-e157-7166-990b-ef5017d27bb3','{"id":"01a2144b-e16d-73ea-9cd5-3842beec9dae"}','35140924fb043d10ccf1af7b358ac1e0ba0440d5beb25081c1d9d40d034f1bbe','b08349e7b805e7aeea171b626a4affc84471bc6aa0bf111ba041b59b3396925a');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e157-7166-990b-ef5017d27bb3','{"how_soon":"today","rule":"missed-early-visit"}','b08349e7b805e7aeea171b626a4affc84471bc6aa0bf111ba041b59b3396925a','ccc01caa1335aa2980b4ddd7382fa7e8540dfcd517bc77947a53a586386d835c');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e157-7166-990b-ef5017d27bb3','{"how_soon":"today","rule":"no-posture-entry"}','ccc01caa1335aa2980b4ddd7382fa7e8540dfcd517bc77947a53a586386d835c','3c3af357b5680d3050ac708b5969909411048cf2547cba505e23051c0db708b8');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e157-7166-990b-ef5017d27bb3','{"how_soon":"today","rule":"silent-while-posturing"}','3c3af357b5680d3050ac708b5969909411048cf2547cba505e23051c0db708b8','d886cce5b9695d989ab8eddb93fd89ea700f409230894a1608916fb855d6e786');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','visit brought forward','01a2144b-e156-77b0-b305-90bc481f57b2','{"latest":"2027-03-08"}','d886cce5b9695d989ab8eddb93fd89ea700f409230894a1608916fb855d6e786','f3334d0aeaf58da227561616773fd422c9740b35ef579c1a50cc0f03561beac6');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','callback claimed','01a2144b-e167-77b0-b779-cc13c831f8bc','null','f3334d0aeaf58da227561616773fd422c9740b35ef579c1a50cc0f03561beac6','7c3683127ed0c424df1aebc7c0662228464688413f98bb23b8a0ef9967c8e6b6');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','callback attempt','01a2144b-e167-77b0-b779-cc13c831f8bc','{"reached":true}','7c3683127ed0c424df1aebc7c0662228464688413f98bb23b8a0ef9967c8e6b6','1db24238e9f003936aba70b69c78a00a54ba64dbe83e7ee388aff0943e51b715');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','visit brought forward','01a2144b-e156-77b0-b305-90bc481f57b2','{"latest":"2027-03-05"}','1db24238e9f003936aba70b69c78a00a54ba64dbe83e7ee388aff0943e51b715','dee1518ac5e16acef34d47af413d48fd76190500eea6961f48fcde40733d54be');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','callback settled','01a2144b-e167-77b0-b779-cc13c831f8bc','{"outcome":"same-day"}','dee1518ac5e16acef34d47af413d48fd76190500eea6961f48fcde40733d54be','26ebe848cd06593549d449bae62b5d3ada7b4d69bbd326877c602d0001236665');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a2144b-e155-770c-a8f5-ecbe9b8b7529','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','26ebe848cd06593549d449bae62b5d3ada7b4d69bbd326877c602d0001236665','cd286f1afdd9c6cb6d124b51a9bfb96c1d2387a3bc4f235c3f609a51dd035c21');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a2144b-e162-72db-9fb2-6f83a2a1b834','01a2144b-e162-72db-9fb2-6f82f89d1cb7','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e162-72db-9fb2-6f86383d530f','01a2144b-e162-72db-9fb2-6f85b6469cf1','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e162-72db-9fb2-6f89b2c8dc68','01a2144b-e162-72db-9fb2-6f883ec139e0','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e163-7636-8111-995a5592c4d4','01a2144b-e162-72db-9fb2-6f883ec139e0','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e167-77b0-b779-cc142890624b','01a2144b-e167-77b0-b779-cc13c831f8bc','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e167-77b0-b779-cc1793d916e4','01a2144b-e167-77b0-b779-cc16428bfb6f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e167-77b0-b779-cc1a0f0b99a0','01a2144b-e167-77b0-b779-cc19ed8a352f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e167-77b0-b779-cc1c6e647ec6','01a2144b-e167-77b0-b779-cc16428bfb6f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e167-77b0-b779-cc1e95e2f739','01a2144b-e167-77b0-b779-cc19ed8a352f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e16c-71e6-a9de-4d6a161753d1','01a2144b-e167-77b0-b779-cc16428bfb6f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e16c-71e6-a9de-4d6c67372db0','01a2144b-e167-77b0-b779-cc16428bfb6f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e16c-71e6-a9de-4d6ed2c16b8c','01a2144b-e167-77b0-b779-cc16428bfb6f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e16c-71e6-a9de-4d70ecf47f26','01a2144b-e167-77b0-b779-cc16428bfb6f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e170-7511-a96f-6c527cbdb301','01a2144b-e170-7511-a96f-6c51a17ae4c1','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e170-7511-a96f-6c5508db1ffe','01a2144b-e170-7511-a96f-6c54ad377fe6','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e170-7511-a96f-6c57acc2915c','01a2144b-e170-7511-a96f-6c54ad377fe6','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e172-7201-a48e-a12397a697a1','01a2144b-e167-77b0-b779-cc13c831f8bc','2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a2144b-e173-77ad-802a-736352805d27','01a2144b-e167-77b0-b779-cc13c831f8bc','2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','reached','{"by":"Nora Nurse","reached":true,"words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a2144b-e174-706c-93a2-bde71073492a','01a2144b-e167-77b0-b779-cc13c831f8bc','2027-03-05T10:00:00.000000Z','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','settled','{"by":"Nora Nurse","outcome":"same-day","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "callbacks" VALUES('01a2144b-e162-72db-9fb2-6f82f89d1cb7','01a2144b-e156-77b0-b305-90bc481f57b2','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e162-72db-9fb2-6f85b6469cf1','01a2144b-e156-77b0-b305-90bc481f57b2','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e162-72db-9fb2-6f883ec139e0','01a2144b-e156-77b0-b305-90bc481f57b2','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e167-77b0-b779-cc13c831f8bc','01a2144b-e156-77b0-b305-90bc481f57b2','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','same-day',0);
INSERT INTO "callbacks" VALUES('01a2144b-e167-77b0-b779-cc16428bfb6f','01a2144b-e156-77b0-b305-90bc481f57b2','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e167-77b0-b779-cc19ed8a352f','01a2144b-e156-77b0-b305-90bc481f57b2','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e170-7511-a96f-6c51a17ae4c1','01a2144b-e157-7166-990b-ef5017d27bb3','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e170-7511-a96f-6c54ad377fe6','01a2144b-e157-7166-990b-ef5017d27bb3','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a2144b-e158-758d-bb39-713b5119e01a','01a2144b-e156-77b0-b305-90bb512a0714','c1a91ffd0cea5bada1b4b6907dc253470f9d10c754945b62ddb83d10b44b2a45','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a2144b-e156-77b0-b305-90c0ceba8877','01a2144b-e156-77b0-b305-90bb512a0714','ff3380d4e4034012d8c2f196ee133e277fa9378cea0a4c0555b6dcfd3aa2b128','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a2144b-e157-7166-990b-ef54f257737d','01a2144b-e157-7166-990b-ef4fe9c8760b','81c29f626303d15e8b77ace7b65eee3813a8ac8c379504bc7e128261899e042d','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        ) STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a2144b-e156-77b0-b305-90bc481f57b2','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a2144b-e158-758d-bb39-713b5119e01a','01a2144b-e158-758d-bb39-713b5119e01a',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a2144b-e156-77b0-b305-90bc481f57b2','symptoms','2027-03-05T09:00:00.000000Z','{"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a2144b-e158-758d-bb39-713b5119e01a','01a2144b-e158-758d-bb39-713b5119e01a',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e168-762a-8fd2-b4149e037d0f','01a2144b-e156-77b0-b305-90bc481f57b2','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a2144b-e154-73c8-b242-53d17226ea5b',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e168-762a-8fd2-b415cbe06499','01a2144b-e156-77b0-b305-90bc481f57b2','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1"}','nurse:01a2144b-e154-73c8-b242-53d17226ea5b',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e16d-73ea-9cd5-3842beec9dae','01a2144b-e157-7166-990b-ef5017d27bb3','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a2144b-e154-73c8-b242-53d17226ea5b',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e173-77ad-802a-7364b59ac848','01a2144b-e156-77b0-b305-90bc481f57b2','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a2144b-e154-73c8-b242-53d17226ea5b',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
CREATE TABLE job_slots (job TEXT NOT NULL, slot TEXT NOT NULL, taken_at TEXT NOT NULL, PRIMARY KEY (job, slot)) STRICT;
CREATE TABLE looks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, at TEXT NOT NULL, who TEXT NOT NULL
        ) STRICT;
CREATE TABLE operation_records (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operation_records" VALUES('01a2144b-e156-77b0-b305-90bd19e8a887','01a2144b-e156-77b0-b305-90bc481f57b2','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00"}','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-02T19:00:00.000000Z');
INSERT INTO "operation_records" VALUES('01a2144b-e157-7166-990b-ef5179bec47e','01a2144b-e157-7166-990b-ef5017d27bb3','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00"}','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-02T19:00:00.000000Z');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
INSERT INTO "operations" VALUES('01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e156-77b0-b305-90bb512a0714','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "operations" VALUES('01a2144b-e157-7166-990b-ef5017d27bb3','01a2144b-e157-7166-990b-ef4fe9c8760b','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "patients" VALUES('01a2144b-e156-77b0-b305-90bb512a0714','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
INSERT INTO "patients" VALUES('01a2144b-e157-7166-990b-ef4fe9c8760b','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, operation_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e158-758d-bb39-713b5119e01a','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a2144b-e156-77b0-b305-90bc481f57b2", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a2144b-e175-713c-93dd-949cec289772','reviews','8409d8bc694c76d2','01a2144b-e155-770c-a8f5-ecbe9b8b7529','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a2144b-e154-73c8-b242-53d17226ea5b','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$oKUv2E7jR7cebyta2Eacsw$YDNxbyIIQagXi/6KVBySK02DleGEpCL6+AZEwqIMOug','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a2144b-e155-770c-a8f5-ecbe9b8b7529','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$AO2bQqvC3XM3vgphuByAaQ$QLLyhWfDVTKZQlRAEWwodnNpScxFjUqAU3fESs20pHY','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits
        ) STRICT;
INSERT INTO "visits" VALUES('01a2144b-e156-77b0-b305-90be6489d4d6','01a2144b-e156-77b0-b305-90bc481f57b2','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144b-e156-77b0-b305-90bf32104366','01a2144b-e156-77b0-b305-90bc481f57b2','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144b-e157-7166-990b-ef52d7caf954','01a2144b-e157-7166-990b-ef5017d27bb3','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144b-e157-7166-990b-ef53b628ba96','01a2144b-e157-7166-990b-ef5017d27bb3','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "visits" VALUES('01a2144b-e171-72ec-b48b-af9584b61299','01a2144b-e156-77b0-b305-90bc481f57b2','week 1','2027-03-08','2027-03-05','2027-03-08','sooner','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-05T10:00:00.000000Z','01a2144b-e156-77b0-b305-90bf32104366');
INSERT INTO "visits" VALUES('01a2144b-e174-706c-93a2-bde67556dafc','01a2144b-e156-77b0-b305-90bc481f57b2','week 1','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a2144b-e154-73c8-b242-53d17226ea5b','2027-03-05T10:00:00.000000Z','01a2144b-e171-72ec-b48b-af9584b61299');
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (operation_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a2144b-e162-72db-9fb2-6f84dd0b1808','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e162-72db-9fb2-6f82f89d1cb7','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e162-72db-9fb2-6f87d39e38fe','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e162-72db-9fb2-6f85b6469cf1','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e162-72db-9fb2-6f8a7f6264ec','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e162-72db-9fb2-6f883ec139e0','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e163-7636-8111-995bb1379904','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e162-72db-9fb2-6f883ec139e0','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e167-77b0-b779-cc15e33205e0','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e167-77b0-b779-cc13c831f8bc','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e167-77b0-b779-cc181d83fc5f','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e167-77b0-b779-cc16428bfb6f','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e167-77b0-b779-cc1b95895443','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e167-77b0-b779-cc19ed8a352f','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e167-77b0-b779-cc1d855cb9c9','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e167-77b0-b779-cc16428bfb6f','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e167-77b0-b779-cc1f19012ce6','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e167-77b0-b779-cc19ed8a352f','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e16c-71e6-a9de-4d6b00cba033','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e167-77b0-b779-cc16428bfb6f','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e16c-71e6-a9de-4d6ddf90d00d','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e167-77b0-b779-cc16428bfb6f','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e16c-71e6-a9de-4d6fb0019eb5','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e167-77b0-b779-cc16428bfb6f','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e16c-71e6-a9de-4d71ec804764','01a2144b-e156-77b0-b305-90bc481f57b2','01a2144b-e167-77b0-b779-cc16428bfb6f','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e170-7511-a96f-6c53985b36c7','01a2144b-e157-7166-990b-ef5017d27bb3','01a2144b-e170-7511-a96f-6c51a17ae4c1','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e170-7511-a96f-6c56fc075627','01a2144b-e157-7166-990b-ef5017d27bb3','01a2144b-e170-7511-a96f-6c54ad377fe6','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e170-7511-a96f-6c5852e3ab35','01a2144b-e157-7166-990b-ef5017d27bb3','01a2144b-e170-7511-a96f-6c54ad377fe6','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
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
CREATE TRIGGER visits_keeps_update BEFORE UPDATE ON visits BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
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
COMMIT;
