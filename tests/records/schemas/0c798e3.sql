BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 04:21:20.254208+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 04:21:20.257130+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 04:21:20.260463+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 04:21:20.262083+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 04:21:20.263996+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 04:21:20.264968+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 04:21:20.267403+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 04:21:20.269165+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m011_bounds','2026-11-26 04:21:20.270194+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-270e-716c-90e4-64311543fa48','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','036ecf1d0085a8cd8433dfc936715f13fd3c6a9f4fe8498917f2cd9604e98dd6');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-270f-71cd-8325-51c5fb4cabbd','{"role":"surgeon"}','036ecf1d0085a8cd8433dfc936715f13fd3c6a9f4fe8498917f2cd9604e98dd6','a3fc4e360ebc9ce7636e3164f5365befab35fd48bf8432daea77291391cc8ca3');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','enrolment code','01a21616-2711-7566-8ca1-05a2069586ff','null','a3fc4e360ebc9ce7636e3164f5365befab35fd48bf8432daea77291391cc8ca3','c37176c0384d321af5c2219f7d4d42086e4dc12b146222f4dff31481cb91fdd0');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','discharge','01a21616-2711-7566-8ca1-05a38bd0c0df','{"agent":"c2f6","eye":"right"}','c37176c0384d321af5c2219f7d4d42086e4dc12b146222f4dff31481cb91fdd0','5998b8fe7a010193290775eb0c7040c687fb176fcf93c8db88e7e43bb753e17c');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','enrolment code','01a21616-2712-769f-bae8-a6288aa7ff7c','null','5998b8fe7a010193290775eb0c7040c687fb176fcf93c8db88e7e43bb753e17c','a995dfa638840102c51bbf6b283cd1b888bfc588ee9f20a31e5131a8c59945b3');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','discharge','01a21616-2712-769f-bae8-a6299ff0b3d1','{"agent":"silicone-oil","eye":"right"}','a995dfa638840102c51bbf6b283cd1b888bfc588ee9f20a31e5131a8c59945b3','fe11307a87c4c48b096ed21d703be8b27c431fe983f7cdf7b437fd4c1ec94d0e');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21616-2714-70f3-a7cc-a64818d63579','device enrolled','01a21616-2711-7566-8ca1-05a2069586ff','null','fe11307a87c4c48b096ed21d703be8b27c431fe983f7cdf7b437fd4c1ec94d0e','3f8723cb95577db1ea85fbbb2b91066e3fcf38fd20f2350f04e286f2160279a9');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21616-2714-70f3-a7cc-a64818d63579','event posture','01a21616-2711-7566-8ca1-05a38bd0c0df','{"id":"0195e5a0-0000-7000-8000-000000000001"}','3f8723cb95577db1ea85fbbb2b91066e3fcf38fd20f2350f04e286f2160279a9','58bf68b656f0f61895747f5515405cd8040827e864eb615576f8bdff0a42290f');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"today","rule":"missed-early-visit"}','58bf68b656f0f61895747f5515405cd8040827e864eb615576f8bdff0a42290f','bec7e4b1009684e86bdb14db08c8c54e377abc12cfb95bdbdedfd8d2dbf9be8b');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"today","rule":"posture-missed"}','bec7e4b1009684e86bdb14db08c8c54e377abc12cfb95bdbdedfd8d2dbf9be8b','b07d611112be80fa984365b2d0d8fba4068b5a0a719dbc7fd0c1cea3c90965d8');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"today","rule":"silent-while-posturing"}','b07d611112be80fa984365b2d0d8fba4068b5a0a719dbc7fd0c1cea3c90965d8','ccbd1ee4fd91c9383fb90397c17229cc7e657da019a9f9242f0382a65615ad9f');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"today","rule":"no-posture-entry"}','ccbd1ee4fd91c9383fb90397c17229cc7e657da019a9f9242f0382a65615ad9f','215bcbc653147cb763bcac6ec0591923fe0666a57dbccfc0c121843c16a0c526');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21616-2714-70f3-a7cc-a64818d63579','event symptoms','01a21616-2711-7566-8ca1-05a38bd0c0df','{"id":"0195e5a0-0000-7000-8000-000000000002"}','215bcbc653147cb763bcac6ec0591923fe0666a57dbccfc0c121843c16a0c526','d3b194c106622ebfefde3902332c4c95fd808b1c3e1986e3def2fc65a93a6cc0');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"now","rule":"infection-suspected"}','d3b194c106622ebfefde3902332c4c95fd808b1c3e1986e3def2fc65a93a6cc0','5efce667abec82f68462cde99b1a2489bd22548239b8dc5d82bf01c59d504094');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"now","rule":"severe-pain"}','5efce667abec82f68462cde99b1a2489bd22548239b8dc5d82bf01c59d504094','faf51b4dfd34b106e49b4301dee88a570d36f7ad784d8da9581ad146101bb638');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"today","rule":"curtain"}','faf51b4dfd34b106e49b4301dee88a570d36f7ad784d8da9581ad146101bb638','34d5f78759f7480c93f1f2d1754fc86c14449bfaa9f8fa2ea9c9f7436f4bb05a');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"today","rule":"pain"}','34d5f78759f7480c93f1f2d1754fc86c14449bfaa9f8fa2ea9c9f7436f4bb05a','fe08326e7ac28fe3e2e431638879d64d82d5e70ca20a9fd2b49f5b234e53e6e4');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"today","rule":"vision-worse"}','fe08326e7ac28fe3e2e431638879d64d82d5e70ca20a9fd2b49f5b234e53e6e4','73f81bb40e22769d593c3e124f68a76ea038a44f8dd6de914745d52ed7eef91f');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','event measures','01a21616-2711-7566-8ca1-05a38bd0c0df','{"id":"01a21616-272b-73ba-beff-ae260bf6f3da"}','73f81bb40e22769d593c3e124f68a76ea038a44f8dd6de914745d52ed7eef91f','6c3c3e5c2c1d6477262b3f185fb0429269be616ff140da6ee7cc7bded8302d16');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','event seen','01a21616-2711-7566-8ca1-05a38bd0c0df','{"id":"01a21616-272c-708a-92b3-4c86228b3d00"}','6c3c3e5c2c1d6477262b3f185fb0429269be616ff140da6ee7cc7bded8302d16','bce9e715fe7e2e542237c25ec8d09b5b19d5e36f149c1bb1785884189486aa10');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"now","rule":"pressure-severe"}','bce9e715fe7e2e542237c25ec8d09b5b19d5e36f149c1bb1785884189486aa10','2863ed02b73a5e4b865b47938cb1f50c281b98695df25a2ea9e59cd2e6c57673');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"today","rule":"pressure-spike"}','2863ed02b73a5e4b865b47938cb1f50c281b98695df25a2ea9e59cd2e6c57673','019185360461b1a9a4d32bcaeb7fb396fadb0f05c72e60bf4dc12a863ca2b304');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"this-week","rule":"pressure-raised"}','019185360461b1a9a4d32bcaeb7fb396fadb0f05c72e60bf4dc12a863ca2b304','c4a31caf20dc81e13cc115598b6725ca5c2477fd5a21a4070837c90161803ded');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2711-7566-8ca1-05a38bd0c0df','{"how_soon":"this-week","rule":"pressure-rise"}','c4a31caf20dc81e13cc115598b6725ca5c2477fd5a21a4070837c90161803ded','c7ec7e03b278b3ff48cfd83bb216a71a21df55b54a2d7b3292bf9883473f8a70');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','event measures','01a21616-2712-769f-bae8-a6299ff0b3d1','{"id":"01a21616-2731-7283-8502-1c1e62ea5ead"}','c7ec7e03b278b3ff48cfd83bb216a71a21df55b54a2d7b3292bf9883473f8a70','115f89c3202ae33af85e803c15fd109f80c257aaf6e9d02eca2200d1d55caaca');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2712-769f-bae8-a6299ff0b3d1','{"how_soon":"today","rule":"missed-early-visit"}','115f89c3202ae33af85e803c15fd109f80c257aaf6e9d02eca2200d1d55caaca','934e1fe40aeeb0bceae21fe62a76d511cc1bc88f2aa16800744fd046aeeaf265');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2712-769f-bae8-a6299ff0b3d1','{"how_soon":"today","rule":"no-posture-entry"}','934e1fe40aeeb0bceae21fe62a76d511cc1bc88f2aa16800744fd046aeeaf265','351e040beadd9a9c184e8d6cc50dc89480886759dbc2047fa877dfa4d2f8db0d');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-2712-769f-bae8-a6299ff0b3d1','{"how_soon":"today","rule":"silent-while-posturing"}','351e040beadd9a9c184e8d6cc50dc89480886759dbc2047fa877dfa4d2f8db0d','836ee3a911f152e126b6ed9a7299d112afc063c902a44b73a6c05c61063839f4');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','callback claimed','01a21616-2728-771f-8fd1-f446d7becea3','null','836ee3a911f152e126b6ed9a7299d112afc063c902a44b73a6c05c61063839f4','34f02e5b576ba3208debb284bd05135cc4579b008d6774a87e578c7858922f6b');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','callback attempt','01a21616-2728-771f-8fd1-f446d7becea3','{"reached":true}','34f02e5b576ba3208debb284bd05135cc4579b008d6774a87e578c7858922f6b','eff44fd4b75ab3e93508251042d9eb0f3853b2c987662d20166cf13de075a687');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','extra visit','01a21616-2711-7566-8ca1-05a38bd0c0df','{"on":"2027-03-05"}','eff44fd4b75ab3e93508251042d9eb0f3853b2c987662d20166cf13de075a687','1fd3c774052983ae6b7bc173cfaba19598dcd6a4e2c5d81cc8c5a50649e964c7');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','callback decided','01a21616-2728-771f-8fd1-f446d7becea3','{"outcome":"same-day"}','1fd3c774052983ae6b7bc173cfaba19598dcd6a4e2c5d81cc8c5a50649e964c7','62c9ea0638b0823234f02026ee23312fbaec9735e746986cfa6fb0047c0472ab');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','surgeon:01a21616-270f-71cd-8325-51c5fb4cabbd','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','62c9ea0638b0823234f02026ee23312fbaec9735e746986cfa6fb0047c0472ab','07e2bc85900d27e72e9b0c93d9701ed2a21a437bcd68fdd65c823730494b89fe');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21616-2722-72ee-98a5-9a9a9e247283','01a21616-2722-72ee-98a5-9a99e65379f9','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-2722-72ee-98a5-9a9d3be76029','01a21616-2722-72ee-98a5-9a9c7db0a90b','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-2722-72ee-98a5-9aa02593f6b4','01a21616-2722-72ee-98a5-9a9f38efbb8f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-2723-73aa-97d5-c1c7000acdc9','01a21616-2722-72ee-98a5-9a9f38efbb8f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21616-2728-771f-8fd1-f447f1acb1ed','01a21616-2728-771f-8fd1-f446d7becea3','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21616-2729-72d7-ac61-deacfc2da753','01a21616-2728-771f-8fd1-f4490ddcf3d3','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21616-2729-72d7-ac61-deafe2c2b0bc','01a21616-2729-72d7-ac61-deaeee052e9a','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21616-2729-72d7-ac61-deb171e57a8c','01a21616-2728-771f-8fd1-f4490ddcf3d3','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21616-2729-72d7-ac61-deb3ea1deaa4','01a21616-2729-72d7-ac61-deaeee052e9a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21616-2730-75db-b9a3-4a7319abb3ab','01a21616-2728-771f-8fd1-f4490ddcf3d3','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21616-2730-75db-b9a3-4a758b351920','01a21616-2728-771f-8fd1-f4490ddcf3d3','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21616-2730-75db-b9a3-4a77b6b82faf','01a21616-2728-771f-8fd1-f4490ddcf3d3','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21616-2731-7283-8502-1c1cfeb582ec','01a21616-2728-771f-8fd1-f4490ddcf3d3','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21616-2736-73e3-899c-3bebc19c210e','01a21616-2736-73e3-899c-3bea483b9d07','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-2736-73e3-899c-3beea1ce84ea','01a21616-2736-73e3-899c-3bed388519be','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-2736-73e3-899c-3bf0cd555318','01a21616-2736-73e3-899c-3bed388519be','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-2737-74fd-894b-f612387478eb','01a21616-2728-771f-8fd1-f446d7becea3','2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21616-273b-755b-92e1-6397c3381308','01a21616-2728-771f-8fd1-f446d7becea3','2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21616-279e-73d1-ad2d-878bf498f65b','01a21616-2728-771f-8fd1-f446d7becea3','2027-03-05T10:00:00.000000Z','nurse:01a21616-270e-716c-90e4-64311543fa48','decided','{"by":"Nora Nurse","outcome":"same-day","task":"01a21616-279e-73d1-ad2d-878afb240cf0","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21616-2722-72ee-98a5-9a99e65379f9','01a21616-2711-7566-8ca1-05a38bd0c0df','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2722-72ee-98a5-9a9c7db0a90b','01a21616-2711-7566-8ca1-05a38bd0c0df','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2722-72ee-98a5-9a9f38efbb8f','01a21616-2711-7566-8ca1-05a38bd0c0df','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2728-771f-8fd1-f446d7becea3','01a21616-2711-7566-8ca1-05a38bd0c0df','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','claimed','01a21616-270e-716c-90e4-64311543fa48','2027-03-05T10:00:00.000000Z',NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2728-771f-8fd1-f4490ddcf3d3','01a21616-2711-7566-8ca1-05a38bd0c0df','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2729-72d7-ac61-deaeee052e9a','01a21616-2711-7566-8ca1-05a38bd0c0df','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2736-73e3-899c-3bea483b9d07','01a21616-2712-769f-bae8-a6299ff0b3d1','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-2736-73e3-899c-3bed388519be','01a21616-2712-769f-bae8-a6299ff0b3d1','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21616-2714-70f3-a7cc-a64818d63579','01a21616-2711-7566-8ca1-05a2069586ff','adb21248254d38197dd66f9932aa47637b316a7d69b0ed2fcfe997bc4deab0d7','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21616-2711-7566-8ca1-05a7191c3c47','01a21616-2711-7566-8ca1-05a2069586ff','ac9cd2d021cea1df348c7f96e62fb350df36e5fbae6803283d8c88cd2426836b','nurse:01a21616-270e-716c-90e4-64311543fa48','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21616-2713-763a-8428-83b48b42ef5f','01a21616-2712-769f-bae8-a6288aa7ff7c','e034440ed0e6b5a472a92cdf7ae07ecf5dc332b66431ffd99fb3dca4dee3e148','nurse:01a21616-270e-716c-90e4-64311543fa48','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        ) STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21616-2711-7566-8ca1-05a38bd0c0df','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21616-2714-70f3-a7cc-a64818d63579','01a21616-2714-70f3-a7cc-a64818d63579',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21616-2711-7566-8ca1-05a38bd0c0df','symptoms','2027-03-05T09:00:00.000000Z','{"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21616-2714-70f3-a7cc-a64818d63579','01a21616-2714-70f3-a7cc-a64818d63579',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-272b-73ba-beff-ae260bf6f3da','01a21616-2711-7566-8ca1-05a38bd0c0df','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21616-270e-716c-90e4-64311543fa48',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-272c-708a-92b3-4c86228b3d00','01a21616-2711-7566-8ca1-05a38bd0c0df','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21616-2711-7566-8ca1-05a5a0d357ac"}','nurse:01a21616-270e-716c-90e4-64311543fa48',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-2731-7283-8502-1c1e62ea5ead','01a21616-2712-769f-bae8-a6299ff0b3d1','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21616-270e-716c-90e4-64311543fa48',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
INSERT INTO "events" VALUES('01a21616-273c-7294-b31b-b1e420a84f64','01a21616-2711-7566-8ca1-05a38bd0c0df','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21616-270e-716c-90e4-64311543fa48',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL);
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
INSERT INTO "operation_records" VALUES('01a21616-2711-7566-8ca1-05a4c1f9d155','01a21616-2711-7566-8ca1-05a38bd0c0df','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-270e-716c-90e4-64311543fa48','2027-03-02T19:00:00.000000Z');
INSERT INTO "operation_records" VALUES('01a21616-2712-769f-bae8-a62a537e2df7','01a21616-2712-769f-bae8-a6299ff0b3d1','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-270e-716c-90e4-64311543fa48','2027-03-02T19:00:00.000000Z');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
INSERT INTO "operations" VALUES('01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2711-7566-8ca1-05a2069586ff','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "operations" VALUES('01a21616-2712-769f-bae8-a6299ff0b3d1','01a21616-2712-769f-bae8-a6288aa7ff7c','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "patients" VALUES('01a21616-2711-7566-8ca1-05a2069586ff','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
INSERT INTO "patients" VALUES('01a21616-2712-769f-bae8-a6288aa7ff7c','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2714-70f3-a7cc-a64818d63579','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21616-2711-7566-8ca1-05a38bd0c0df", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21616-27a1-74f9-824a-f0d608f1e818','reviews','8409d8bc694c76d2','01a21616-270f-71cd-8325-51c5fb4cabbd','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a21616-270e-716c-90e4-64311543fa48','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$yFOcagBBJaswM6VUtDzKsA$T/Ve164rAdoK6dCGF/0EhtNKQhJ60UOi+cRkUcD2dv8','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a21616-270f-71cd-8325-51c5fb4cabbd','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$l149v/IpLX8YjUb2Y+NI7g$oM7q/V7IqBP/+JFQtby2DywqIPel1idy2YbIYoANE0Q','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            operation_id TEXT NOT NULL REFERENCES operations, kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "tasks" VALUES('01a21616-279e-73d1-ad2d-878afb240cf0','01a21616-2728-771f-8fd1-f446d7becea3','01a21616-2711-7566-8ca1-05a38bd0c0df','come-today','comes at two','01a21616-279e-73d1-ad2d-8789d288b970','01a21616-270e-716c-90e4-64311543fa48','2027-03-05T11:00:00.000000Z','01a21616-270e-716c-90e4-64311543fa48','2027-03-05T10:00:00.000000Z',NULL,NULL,NULL,'',0);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21616-2711-7566-8ca1-05a5a0d357ac','01a21616-2711-7566-8ca1-05a38bd0c0df','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-270e-716c-90e4-64311543fa48','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-2711-7566-8ca1-05a5a0d357ac');
INSERT INTO "visits" VALUES('01a21616-2711-7566-8ca1-05a6a1b06414','01a21616-2711-7566-8ca1-05a38bd0c0df','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-270e-716c-90e4-64311543fa48','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-2711-7566-8ca1-05a6a1b06414');
INSERT INTO "visits" VALUES('01a21616-2712-769f-bae8-a62bc9d63aef','01a21616-2712-769f-bae8-a6299ff0b3d1','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-270e-716c-90e4-64311543fa48','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-2712-769f-bae8-a62bc9d63aef');
INSERT INTO "visits" VALUES('01a21616-2712-769f-bae8-a62cfbf3463b','01a21616-2712-769f-bae8-a6299ff0b3d1','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-270e-716c-90e4-64311543fa48','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-2712-769f-bae8-a62cfbf3463b');
INSERT INTO "visits" VALUES('01a21616-279e-73d1-ad2d-8789d288b970','01a21616-2711-7566-8ca1-05a38bd0c0df','extra visit','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a21616-270e-716c-90e4-64311543fa48','2027-03-05T10:00:00.000000Z',NULL,0,'01a21616-279e-73d1-ad2d-8789d288b970');
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (operation_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a21616-2722-72ee-98a5-9a9bdfe911ca','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2722-72ee-98a5-9a99e65379f9','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2722-72ee-98a5-9a9e817c6bb4','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2722-72ee-98a5-9a9c7db0a90b','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2722-72ee-98a5-9aa16c42e9f4','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2722-72ee-98a5-9a9f38efbb8f','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2723-73aa-97d5-c1c87c9ae787','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2722-72ee-98a5-9a9f38efbb8f','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2728-771f-8fd1-f448f06d795f','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2728-771f-8fd1-f446d7becea3','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2729-72d7-ac61-deadab2d5606','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2728-771f-8fd1-f4490ddcf3d3','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2729-72d7-ac61-deb0129712fc','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2729-72d7-ac61-deaeee052e9a','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2729-72d7-ac61-deb2401efb7d','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2728-771f-8fd1-f4490ddcf3d3','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2729-72d7-ac61-deb44e15b2bb','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2729-72d7-ac61-deaeee052e9a','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2730-75db-b9a3-4a74cae57f72','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2728-771f-8fd1-f4490ddcf3d3','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2730-75db-b9a3-4a76aab656f6','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2728-771f-8fd1-f4490ddcf3d3','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2730-75db-b9a3-4a78f8d29336','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2728-771f-8fd1-f4490ddcf3d3','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2731-7283-8502-1c1d0fcfd23c','01a21616-2711-7566-8ca1-05a38bd0c0df','01a21616-2728-771f-8fd1-f4490ddcf3d3','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2736-73e3-899c-3bec583ab5d5','01a21616-2712-769f-bae8-a6299ff0b3d1','01a21616-2736-73e3-899c-3bea483b9d07','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2736-73e3-899c-3bef6079eb03','01a21616-2712-769f-bae8-a6299ff0b3d1','01a21616-2736-73e3-899c-3bed388519be','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-2736-73e3-899c-3bf17393afcf','01a21616-2712-769f-bae8-a6299ff0b3d1','01a21616-2736-73e3-899c-3bed388519be','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','1bd236583f401219','2027-03-05T10:00:00.000000Z');
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
