BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-25 20:00:48.875837+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-25 20:00:48.882652+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-25 20:00:48.887713+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-25 20:00:48.897378+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-25 20:00:48.901812+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144b-e908-735a-8e90-e3a7e54f9066','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','49aaa9a9f9e38bab1474de51094e66d244f2d5bed029dbe6b92590a3bef6638c');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2144b-e90c-7425-ad48-01ef6122cb21','{"role":"surgeon"}','49aaa9a9f9e38bab1474de51094e66d244f2d5bed029dbe6b92590a3bef6638c','3f73bf5ff6d2d9474e0559744aa0b23eea7da1d9d7bc79fb4be39527e37b0c27');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','enrolment code','01a2144b-e90e-7789-8f27-9e397657bef0','null','3f73bf5ff6d2d9474e0559744aa0b23eea7da1d9d7bc79fb4be39527e37b0c27','e40ff895fc1d058a2b28a5a30922cc2ec43b5a50e0ee5b6e53174d4a8e412f11');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','discharge','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"agent":"c2f6","eye":"right"}','e40ff895fc1d058a2b28a5a30922cc2ec43b5a50e0ee5b6e53174d4a8e412f11','70aae4b79fda1260203c1dc5bd799efcf78785313997ef7c56c99a37776a8d34');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','enrolment code','01a2144b-e911-7455-b161-598d285d7e7e','null','70aae4b79fda1260203c1dc5bd799efcf78785313997ef7c56c99a37776a8d34','68107a5f067aaabd2ae2204f23513eee8b5b0d5c1c57f359c170246dea52ade1');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','discharge','01a2144b-e911-7455-b161-598e4da6fb38','{"agent":"silicone-oil","eye":"right"}','68107a5f067aaabd2ae2204f23513eee8b5b0d5c1c57f359c170246dea52ade1','bdde1cb73a7f0220319cbfa3f13c58bc362bab31996e26a9175b172efd1b462b');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a2144b-e915-7573-8212-133e43a82627','device enrolled','01a2144b-e90e-7789-8f27-9e397657bef0','null','bdde1cb73a7f0220319cbfa3f13c58bc362bab31996e26a9175b172efd1b462b','4c5b7c06a83fe0ec83ed9154131be8bcf7743227760390ef64170603dfc418cd');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a2144b-e915-7573-8212-133e43a82627','event posture','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"id":"0195e5a0-0000-7000-8000-000000000001"}','4c5b7c06a83fe0ec83ed9154131be8bcf7743227760390ef64170603dfc418cd','e80e2e2d471eb8edcc2d72bc4b41f4ed8ae71bf06d09a8835d97a5e7999f8830');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"today","rule":"missed-early-visit"}','e80e2e2d471eb8edcc2d72bc4b41f4ed8ae71bf06d09a8835d97a5e7999f8830','a12763fb8fce93377fe08416d48d06b33dde7083adf9469050fcfc50362c9c2b');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"today","rule":"posture-missed"}','a12763fb8fce93377fe08416d48d06b33dde7083adf9469050fcfc50362c9c2b','3609e67484d6e30116937130b60ba7eb69758223f014fe98bbb43cbf6a847667');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"today","rule":"silent-while-posturing"}','3609e67484d6e30116937130b60ba7eb69758223f014fe98bbb43cbf6a847667','f0d528fee12c3f5d1f864ff47cc19e722318b1f2ec7e4fb61d70f0844568166a');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"today","rule":"no-posture-entry"}','f0d528fee12c3f5d1f864ff47cc19e722318b1f2ec7e4fb61d70f0844568166a','aca763a4e06015879a1fe52a329aae97510965eef0599556eaba0db76dc80705');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a2144b-e915-7573-8212-133e43a82627','event symptoms','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"id":"0195e5a0-0000-7000-8000-000000000002"}','aca763a4e06015879a1fe52a329aae97510965eef0599556eaba0db76dc80705','88d5541f4d5cca9f208087831cd2c5c31bb6af141dae7d7e2b1308af1807c62b');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"now","rule":"infection-suspected"}','88d5541f4d5cca9f208087831cd2c5c31bb6af141dae7d7e2b1308af1807c62b','3eb5a86f93cf84abcd3e26a2bd297ee2357020f2155d8c2a840a9cf2f64103c2');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"now","rule":"severe-pain"}','3eb5a86f93cf84abcd3e26a2bd297ee2357020f2155d8c2a840a9cf2f64103c2','8c5404cc8b2ccfaac1a5bab3287089b339183c259c3b738c8c43321f1c02e51a');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"today","rule":"curtain"}','8c5404cc8b2ccfaac1a5bab3287089b339183c259c3b738c8c43321f1c02e51a','c35209060595b1760ce2dd943f1e0c18f3da4ccbb3a37ff312c29fe19ad4fbf7');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"today","rule":"pain"}','c35209060595b1760ce2dd943f1e0c18f3da4ccbb3a37ff312c29fe19ad4fbf7','e72ae283b0cd43583e1f8410469a6b8c328248e0df64909d3a33231fa116358d');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"today","rule":"vision-worse"}','e72ae283b0cd43583e1f8410469a6b8c328248e0df64909d3a33231fa116358d','b434ac355320a8008fe7b933a7b2b7910c2468ad68efc1f2f7402d3337438df2');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','event measures','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"id":"01a2144b-e94c-77b5-aaf0-ba563071d0d9"}','b434ac355320a8008fe7b933a7b2b7910c2468ad68efc1f2f7402d3337438df2','f47b804f542a0626fea523f6e410a3fe961e223d7449d2a975f4fe2d72400586');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','event seen','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"id":"01a2144b-e94c-77b5-aaf0-ba57fce085e1"}','f47b804f542a0626fea523f6e410a3fe961e223d7449d2a975f4fe2d72400586','0f07e11a0cf582cb42db5d816668a008a428537289080dd52f9579a1b34b8c47');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"now","rule":"pressure-severe"}','0f07e11a0cf582cb42db5d816668a008a428537289080dd52f9579a1b34b8c47','9e4066b430979449e76d04c4ddeed88304a7fc32877ca20ba14b79d1076c4208');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"today","rule":"pressure-spike"}','9e4066b430979449e76d04c4ddeed88304a7fc32877ca20ba14b79d1076c4208','c9d158996bd6d210fc1b53531e7bb2c303f17b6a0a302ba96028c369fc98e5dd');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"this-week","rule":"pressure-raised"}','c9d158996bd6d210fc1b53531e7bb2c303f17b6a0a302ba96028c369fc98e5dd','7b4e66113b7aee5dfc73b7f4c00661fa007822dc8ff92d06059da0bc7d4ee932');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"how_soon":"this-week","rule":"pressure-rise"}','7b4e66113b7aee5dfc73b7f4c00661fa007822dc8ff92d06059da0bc7d4ee932','b9b9fbb477a3495d32109f835d2665161f6bfc8ba228689b1b8ef8209f72db38');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','event measures','01a2144b-e911-7455-b161-598e4da6fb38','{"id":"01a2144b-e95c-74c1-abe9-b84f6565e9de"}','b9b9fbb477a3495d32109f835d2665161f6bfc8ba228689b1b8ef8209f72db38','25cd70c0c5ce909ae8170f274480b971852288ca30fba6453a43195edb1bb78a');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e911-7455-b161-598e4da6fb38','{"how_soon":"today","rule":"missed-early-visit"}','25cd70c0c5ce909ae8170f274480b971852288ca30fba6453a43195edb1bb78a','f18f8aa1e1d240c464358fd1aaf8e261e6c02ab9b5abbe1f0df3282b457b7583');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e911-7455-b161-598e4da6fb38','{"how_soon":"today","rule":"no-posture-entry"}','f18f8aa1e1d240c464358fd1aaf8e261e6c02ab9b5abbe1f0df3282b457b7583','60748c5cbb7f2f3539d16b969bc69f6cf4977ffef4d5a75fa68043b2e04da828');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2144b-e911-7455-b161-598e4da6fb38','{"how_soon":"today","rule":"silent-while-posturing"}','60748c5cbb7f2f3539d16b969bc69f6cf4977ffef4d5a75fa68043b2e04da828','5b1bef48aabbb1115d1ce5f914d5f190fa8c0cad912556e52b30e63e649c57e2');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','visit brought forward','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"latest":"2027-03-08"}','5b1bef48aabbb1115d1ce5f914d5f190fa8c0cad912556e52b30e63e649c57e2','975a2d5a9cd6366b68388bf5ab815d25dc6542b002bff6d318bf9d8aef2030aa');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','callback claimed','01a2144b-e940-75c8-9f76-ba22cb1928fb','null','975a2d5a9cd6366b68388bf5ab815d25dc6542b002bff6d318bf9d8aef2030aa','29c08714eefb98b552c8a7b9e121d0c830bc3b0ae1981ce33ca9018879a13c61');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','callback attempt','01a2144b-e940-75c8-9f76-ba22cb1928fb','{"reached":true}','29c08714eefb98b552c8a7b9e121d0c830bc3b0ae1981ce33ca9018879a13c61','a186a84bf466604c3fbc6aa0e9aee430d577cb490288a99e0fa610fe8d34a304');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','visit brought forward','01a2144b-e90e-7789-8f27-9e3ace7c4af8','{"latest":"2027-03-05"}','a186a84bf466604c3fbc6aa0e9aee430d577cb490288a99e0fa610fe8d34a304','5ce00681cb91ccce27a02899b169e49f962aa2588428d40a24aca5a613c6c2af');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','callback settled','01a2144b-e940-75c8-9f76-ba22cb1928fb','{"outcome":"same-day"}','5ce00681cb91ccce27a02899b169e49f962aa2588428d40a24aca5a613c6c2af','553e0e8f70c061d5ccf744b305708386c3002e01db9637a016670b19666590e7');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a2144b-e90c-7425-ad48-01ef6122cb21','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','553e0e8f70c061d5ccf744b305708386c3002e01db9637a016670b19666590e7','a28ec304900e103015e4262367d8d51ec67ae30e7a00a4ee0c8a5df22d5bc5cc');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a2144b-e936-77ab-95ee-a06d3c5c856a','01a2144b-e936-77ab-95ee-a06c1dda47e8','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e936-77ab-95ee-a070ef8c719e','01a2144b-e936-77ab-95ee-a06f264716c4','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e936-77ab-95ee-a0731c96d9b2','01a2144b-e936-77ab-95ee-a07214e185b7','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e937-70ff-bea6-dd62f8d5e664','01a2144b-e936-77ab-95ee-a07214e185b7','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e940-75c8-9f76-ba235274cfa2','01a2144b-e940-75c8-9f76-ba22cb1928fb','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e940-75c8-9f76-ba264b8c3778','01a2144b-e940-75c8-9f76-ba2528b64b79','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e943-70ed-8f4a-c03d85ddde2b','01a2144b-e943-70ed-8f4a-c03c15e9eb9e','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e943-70ed-8f4a-c03f14939483','01a2144b-e940-75c8-9f76-ba2528b64b79','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e943-70ed-8f4a-c0410e7715d3','01a2144b-e943-70ed-8f4a-c03c15e9eb9e','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e954-7464-a037-1476e12bcd11','01a2144b-e940-75c8-9f76-ba2528b64b79','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e955-765b-88ec-45063e63f3c7','01a2144b-e940-75c8-9f76-ba2528b64b79','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e955-765b-88ec-45082ed00057','01a2144b-e940-75c8-9f76-ba2528b64b79','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e955-765b-88ec-450a337cc9fe','01a2144b-e940-75c8-9f76-ba2528b64b79','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e95f-731a-9f0f-a71787b8e0a4','01a2144b-e95f-731a-9f0f-a71644a54b0d','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e95f-731a-9f0f-a71a832222a5','01a2144b-e95f-731a-9f0f-a719f72e316a','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e95f-731a-9f0f-a71cc89a1219','01a2144b-e95f-731a-9f0f-a719f72e316a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2144b-e968-7100-9d61-4ac149d34ee6','01a2144b-e940-75c8-9f76-ba22cb1928fb','2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a2144b-e970-75a7-8d51-5bd7d742f3d4','01a2144b-e940-75c8-9f76-ba22cb1928fb','2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','reached','{"by":"Nora Nurse","reached":true,"words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a2144b-e979-7679-9b36-3e8dafc9bec3','01a2144b-e940-75c8-9f76-ba22cb1928fb','2027-03-05T10:00:00.000000Z','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','settled','{"by":"Nora Nurse","outcome":"same-day","visit":"01a2144b-e979-7679-9b36-3e8c2444eb57","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "callbacks" VALUES('01a2144b-e936-77ab-95ee-a06c1dda47e8','01a2144b-e90e-7789-8f27-9e3ace7c4af8','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e936-77ab-95ee-a06f264716c4','01a2144b-e90e-7789-8f27-9e3ace7c4af8','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e936-77ab-95ee-a07214e185b7','01a2144b-e90e-7789-8f27-9e3ace7c4af8','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e940-75c8-9f76-ba22cb1928fb','01a2144b-e90e-7789-8f27-9e3ace7c4af8','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','same-day',0);
INSERT INTO "callbacks" VALUES('01a2144b-e940-75c8-9f76-ba2528b64b79','01a2144b-e90e-7789-8f27-9e3ace7c4af8','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e943-70ed-8f4a-c03c15e9eb9e','01a2144b-e90e-7789-8f27-9e3ace7c4af8','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e95f-731a-9f0f-a71644a54b0d','01a2144b-e911-7455-b161-598e4da6fb38','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2144b-e95f-731a-9f0f-a719f72e316a','01a2144b-e911-7455-b161-598e4da6fb38','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a2144b-e915-7573-8212-133e43a82627','01a2144b-e90e-7789-8f27-9e397657bef0','c27fc57bce1daad8607b5d8e43706e72f326c8a505010d2b99a5eec172a86e79','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a2144b-e90e-7789-8f27-9e3ea7e7531c','01a2144b-e90e-7789-8f27-9e397657bef0','cbc8e5d6c27c3039de5bded5079ad8f108c1a47c22104c86fc54cd1320401f92','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a2144b-e911-7455-b161-5992a7894818','01a2144b-e911-7455-b161-598d285d7e7e','7337520e0d789ecbbe33b907effdc1e0e911209c2c7c30c5db83fe7edafe0d5f','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        ) STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a2144b-e90e-7789-8f27-9e3ace7c4af8','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a2144b-e915-7573-8212-133e43a82627','01a2144b-e915-7573-8212-133e43a82627',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a2144b-e90e-7789-8f27-9e3ace7c4af8','symptoms','2027-03-05T09:00:00.000000Z','{"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a2144b-e915-7573-8212-133e43a82627','01a2144b-e915-7573-8212-133e43a82627',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e94c-77b5-aaf0-ba563071d0d9','01a2144b-e90e-7789-8f27-9e3ace7c4af8','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e94c-77b5-aaf0-ba57fce085e1','01a2144b-e90e-7789-8f27-9e3ace7c4af8','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1"}','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e95c-74c1-abe9-b84f6565e9de','01a2144b-e911-7455-b161-598e4da6fb38','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a2144b-e970-75a7-8d51-5bd88530e10b','01a2144b-e90e-7789-8f27-9e3ace7c4af8','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
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
INSERT INTO "operation_records" VALUES('01a2144b-e90e-7789-8f27-9e3b57bb7699','01a2144b-e90e-7789-8f27-9e3ace7c4af8','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-02T19:00:00.000000Z');
INSERT INTO "operation_records" VALUES('01a2144b-e911-7455-b161-598f5c06e710','01a2144b-e911-7455-b161-598e4da6fb38','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-02T19:00:00.000000Z');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
INSERT INTO "operations" VALUES('01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e90e-7789-8f27-9e397657bef0','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "operations" VALUES('01a2144b-e911-7455-b161-598e4da6fb38','01a2144b-e911-7455-b161-598d285d7e7e','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "patients" VALUES('01a2144b-e90e-7789-8f27-9e397657bef0','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
INSERT INTO "patients" VALUES('01a2144b-e911-7455-b161-598d285d7e7e','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e915-7573-8212-133e43a82627','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a2144b-e90e-7789-8f27-9e3ace7c4af8", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a2144b-e97b-7443-96ca-008c76a2eafa','reviews','8409d8bc694c76d2','01a2144b-e90c-7425-ad48-01ef6122cb21','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a2144b-e908-735a-8e90-e3a7e54f9066','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$vJZe9iBQdwkXGXgNBcOkPw$UhR095AlsFsK9apmgNK/salPMOI24JTe/Cmc3mO+s84','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a2144b-e90c-7425-ad48-01ef6122cb21','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$e5yag1Hot3TWBetsFDM55g$rKlI7goYlmdq5rsI59DhGOYCZNMD/BTSe9MYJDnOEps','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "visits" VALUES('01a2144b-e90e-7789-8f27-9e3cfddc2d80','01a2144b-e90e-7789-8f27-9e3ace7c4af8','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-02T19:00:00.000000Z',NULL,0);
INSERT INTO "visits" VALUES('01a2144b-e90e-7789-8f27-9e3df05701ec','01a2144b-e90e-7789-8f27-9e3ace7c4af8','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-02T19:00:00.000000Z',NULL,0);
INSERT INTO "visits" VALUES('01a2144b-e911-7455-b161-59906b2a8f6c','01a2144b-e911-7455-b161-598e4da6fb38','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-02T19:00:00.000000Z',NULL,0);
INSERT INTO "visits" VALUES('01a2144b-e911-7455-b161-59912a85be03','01a2144b-e911-7455-b161-598e4da6fb38','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-02T19:00:00.000000Z',NULL,0);
INSERT INTO "visits" VALUES('01a2144b-e965-756a-8c05-9b6332be93dc','01a2144b-e90e-7789-8f27-9e3ace7c4af8','week 1','2027-03-08','2027-03-05','2027-03-08','sooner','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-05T10:00:00.000000Z','01a2144b-e90e-7789-8f27-9e3df05701ec',0);
INSERT INTO "visits" VALUES('01a2144b-e979-7679-9b36-3e8c2444eb57','01a2144b-e90e-7789-8f27-9e3ace7c4af8','week 1','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a2144b-e908-735a-8e90-e3a7e54f9066','2027-03-05T10:00:00.000000Z','01a2144b-e965-756a-8c05-9b6332be93dc',0);
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (operation_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a2144b-e936-77ab-95ee-a06eb2130c13','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e936-77ab-95ee-a06c1dda47e8','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e936-77ab-95ee-a071aa814ed1','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e936-77ab-95ee-a06f264716c4','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e936-77ab-95ee-a074a61b3260','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e936-77ab-95ee-a07214e185b7','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e937-70ff-bea6-dd63893f1f20','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e936-77ab-95ee-a07214e185b7','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e940-75c8-9f76-ba248c5340d0','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e940-75c8-9f76-ba22cb1928fb','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e940-75c8-9f76-ba272bf9159f','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e940-75c8-9f76-ba2528b64b79','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e943-70ed-8f4a-c03ef419abb0','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e943-70ed-8f4a-c03c15e9eb9e','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e943-70ed-8f4a-c040d7947788','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e940-75c8-9f76-ba2528b64b79','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e943-70ed-8f4a-c042b6d3affd','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e943-70ed-8f4a-c03c15e9eb9e','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e954-7464-a037-1477f6d6f85c','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e940-75c8-9f76-ba2528b64b79','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e955-765b-88ec-45072a7ecee4','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e940-75c8-9f76-ba2528b64b79','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e955-765b-88ec-450999d30754','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e940-75c8-9f76-ba2528b64b79','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e955-765b-88ec-450b369bc1f4','01a2144b-e90e-7789-8f27-9e3ace7c4af8','01a2144b-e940-75c8-9f76-ba2528b64b79','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e95f-731a-9f0f-a7183d05b2e7','01a2144b-e911-7455-b161-598e4da6fb38','01a2144b-e95f-731a-9f0f-a71644a54b0d','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e95f-731a-9f0f-a71b455eb9e8','01a2144b-e911-7455-b161-598e4da6fb38','01a2144b-e95f-731a-9f0f-a719f72e316a','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2144b-e95f-731a-9f0f-a71d54566599','01a2144b-e911-7455-b161-598e4da6fb38','01a2144b-e95f-731a-9f0f-a719f72e316a','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aab652e4599979ba','2027-03-05T10:00:00.000000Z');
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
CREATE INDEX subscriptions_of_person ON push_subscriptions (person);
CREATE INDEX messages_open ON messages (state, next_try_at);
CREATE INDEX messages_of_person ON messages (person, made_at);
COMMIT;
