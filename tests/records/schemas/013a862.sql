BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 04:21:23.758212+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 04:21:23.762789+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 04:21:23.775080+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 04:21:23.781444+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 04:21:23.785841+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 04:21:23.788629+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 04:21:23.794583+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 04:21:23.801524+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 04:21:23.803988+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 04:21:23.808976+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 04:21:23.843391+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-350c-74e7-8f11-696992f6aa58','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','d5bae42191c18e5899769ee97ad91aaf0a09a5395a646d43854f4ab08fc29394');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21616-3510-7454-83f9-98fdfbba373f','{"role":"surgeon"}','d5bae42191c18e5899769ee97ad91aaf0a09a5395a646d43854f4ab08fc29394','42dddfdf646ff1bce914c1ac1ea53a60bd86b22cec3659cde6c38366826f7794');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','enrolment code','01a21616-3515-765c-8198-43dc2466f150','null','42dddfdf646ff1bce914c1ac1ea53a60bd86b22cec3659cde6c38366826f7794','a54ea215d730214f96e0a11b4bfec129c55c215dd8d8584910d56584ebba60c3');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','discharge','01a21616-3515-765c-8198-43dd2781a6a9','{"agent":"c2f6","eye":"right"}','a54ea215d730214f96e0a11b4bfec129c55c215dd8d8584910d56584ebba60c3','85c26faa720a0ab6099cd2868816bd303423b66eb282dc6e033423e6c7a1600d');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','enrolment code','01a21616-3520-77de-99ff-003c15bf1e66','null','85c26faa720a0ab6099cd2868816bd303423b66eb282dc6e033423e6c7a1600d','0c854e23c6577695f88d5a35e2897a123884a7685a7dbb8d050639b0426877c4');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','discharge','01a21616-3521-70de-9c0e-35ffa72f5003','{"agent":"silicone-oil","eye":"right"}','0c854e23c6577695f88d5a35e2897a123884a7685a7dbb8d050639b0426877c4','1ad9e16ea9054490021c173236bfaa6075e048a7bafa91a99ef492e4369a5d15');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21616-3528-77ed-b003-0f35b59a31ab','device enrolled','01a21616-3515-765c-8198-43dc2466f150','null','1ad9e16ea9054490021c173236bfaa6075e048a7bafa91a99ef492e4369a5d15','4e0c56ca7c2d5b946049d4d0809929d7cb48c0a83ca3e7e863c0ab1e21ce64dd');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21616-3528-77ed-b003-0f35b59a31ab','event posture','01a21616-3515-765c-8198-43dd2781a6a9','{"id":"0195e5a0-0000-7000-8000-000000000001"}','4e0c56ca7c2d5b946049d4d0809929d7cb48c0a83ca3e7e863c0ab1e21ce64dd','f480f9d4da5b8d8582c469b7d1e9c056df70437328a9493724f5fdd89c84ed6e');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"today","rule":"missed-early-visit"}','f480f9d4da5b8d8582c469b7d1e9c056df70437328a9493724f5fdd89c84ed6e','ff466529bcfd464d783caf4cd312fb556e9c82f4492208e464c882c2cb081e4f');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"today","rule":"posture-missed"}','ff466529bcfd464d783caf4cd312fb556e9c82f4492208e464c882c2cb081e4f','d4d18b9f7f59713a8d44714b39fdf6115dd2de0ca7a9ecd096c2468875c2c2ef');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"today","rule":"silent-while-posturing"}','d4d18b9f7f59713a8d44714b39fdf6115dd2de0ca7a9ecd096c2468875c2c2ef','a38322965e29f44d7aa7530f61ac049d179350a0b50fee9a64bc9bcced9b5fe3');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"today","rule":"no-posture-entry"}','a38322965e29f44d7aa7530f61ac049d179350a0b50fee9a64bc9bcced9b5fe3','5b25a424c2f69cbed2b170f3ee00286d95d6aa960c335e46d2d301b54edea13c');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21616-3528-77ed-b003-0f35b59a31ab','event symptoms','01a21616-3515-765c-8198-43dd2781a6a9','{"id":"0195e5a0-0000-7000-8000-000000000002"}','5b25a424c2f69cbed2b170f3ee00286d95d6aa960c335e46d2d301b54edea13c','fcfc8845b440ef3c3e98e227619626af506bfd9601b796eed52ce10c72ed790d');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"now","rule":"infection-suspected"}','fcfc8845b440ef3c3e98e227619626af506bfd9601b796eed52ce10c72ed790d','c4e1477e60bb986ce399a6dcaa67ad132c062a2bf0a07ea5e6e95767d1427b48');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"now","rule":"severe-pain"}','c4e1477e60bb986ce399a6dcaa67ad132c062a2bf0a07ea5e6e95767d1427b48','a70f5ed3e2e2969d94b4b635ee94b33fba9ba046fd2eb3d74df3efa9ce0640cd');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"today","rule":"curtain"}','a70f5ed3e2e2969d94b4b635ee94b33fba9ba046fd2eb3d74df3efa9ce0640cd','577c81af7ae301ab52d94c7ed85eae7ed9191c1d81ac72db1db3cefd0dfd5e80');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"today","rule":"pain"}','577c81af7ae301ab52d94c7ed85eae7ed9191c1d81ac72db1db3cefd0dfd5e80','7dd81ed4019130443915621020c5ca3584b272ed81a1d57d7b6bd64ad967d97d');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"today","rule":"vision-worse"}','7dd81ed4019130443915621020c5ca3584b272ed81a1d57d7b6bd64ad967d97d','027854304c645b6b1c118344e08c839120d3b966af85f3d058f1fd4fcae6bdd5');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','event measures','01a21616-3515-765c-8198-43dd2781a6a9','{"id":"01a21616-357d-7392-bcc9-a1a6f5b39644"}','027854304c645b6b1c118344e08c839120d3b966af85f3d058f1fd4fcae6bdd5','b6f5d67b6ddd0eece520bd13c9427ba94010b2072ac02b73a957f69364bb1d4b');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','event seen','01a21616-3515-765c-8198-43dd2781a6a9','{"id":"01a21616-357e-7106-b3b0-121021aeb942"}','b6f5d67b6ddd0eece520bd13c9427ba94010b2072ac02b73a957f69364bb1d4b','c409cf3ebe953e2f477de897f232a0b0451e65c2f21acfe536ccf0b6bae85442');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"now","rule":"pressure-severe"}','c409cf3ebe953e2f477de897f232a0b0451e65c2f21acfe536ccf0b6bae85442','7d365bf499e1a58a520e716fee18dc89ee4d10b1540ce44bc7910fcd87dfdb93');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"today","rule":"pressure-spike"}','7d365bf499e1a58a520e716fee18dc89ee4d10b1540ce44bc7910fcd87dfdb93','3a905b5a1e458f0b236d10c2c01350dc921fadf2138d5fe97ad5d25b040fe863');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"this-week","rule":"pressure-raised"}','3a905b5a1e458f0b236d10c2c01350dc921fadf2138d5fe97ad5d25b040fe863','e2304b68cbbbe23736e0f11ff150fd2ec213191efbb260f86ece1e49f69ae548');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3515-765c-8198-43dd2781a6a9','{"how_soon":"this-week","rule":"pressure-rise"}','e2304b68cbbbe23736e0f11ff150fd2ec213191efbb260f86ece1e49f69ae548','62b2b50fad38c5bcb52c777eac6c793fa2c339f8316b96ac9015f85d06f93e59');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','event measures','01a21616-3521-70de-9c0e-35ffa72f5003','{"id":"01a21616-3598-7020-8c3c-c645cb243fbb"}','62b2b50fad38c5bcb52c777eac6c793fa2c339f8316b96ac9015f85d06f93e59','2ad160ebf82cf38b3736bc3999518e6311a33129aecd6884be86bcf3c70821e4');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3521-70de-9c0e-35ffa72f5003','{"how_soon":"today","rule":"missed-early-visit"}','2ad160ebf82cf38b3736bc3999518e6311a33129aecd6884be86bcf3c70821e4','7a7f3b94701a18f936fe720b5bdabf7c02e2ecc779ec0a203ae60cbbf5516476');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3521-70de-9c0e-35ffa72f5003','{"how_soon":"today","rule":"no-posture-entry"}','7a7f3b94701a18f936fe720b5bdabf7c02e2ecc779ec0a203ae60cbbf5516476','bf20c9492f33209fd0b5f71a25caec59d286fd7b48ab47adcb381b8357f0ee7a');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21616-3521-70de-9c0e-35ffa72f5003','{"how_soon":"today","rule":"silent-while-posturing"}','bf20c9492f33209fd0b5f71a25caec59d286fd7b48ab47adcb381b8357f0ee7a','94c1310896efa7e1e0f90cd07848e0331a4e4f14d51d1db3074bfe01b5971ac5');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','callback claimed','01a21616-3563-733f-9e61-7329a3b2b354','null','94c1310896efa7e1e0f90cd07848e0331a4e4f14d51d1db3074bfe01b5971ac5','28348b89629b9488b021304f8942412d0855eb257035d4afea98f44cc6039da8');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','callback attempt','01a21616-3563-733f-9e61-7329a3b2b354','{"reached":true}','28348b89629b9488b021304f8942412d0855eb257035d4afea98f44cc6039da8','d705ac3ecd0821876ab6d4eff870a0e02aa944677cabc4198e1680f00ca923f3');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','extra visit','01a21616-3515-765c-8198-43dd2781a6a9','{"on":"2027-03-05"}','d705ac3ecd0821876ab6d4eff870a0e02aa944677cabc4198e1680f00ca923f3','2892d5380b9244254f2d4e2bdbb5d665dab8440c87ef8aa4aa28f6ab1df9d5bd');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','callback decided','01a21616-3563-733f-9e61-7329a3b2b354','{"outcome":"same-day"}','2892d5380b9244254f2d4e2bdbb5d665dab8440c87ef8aa4aa28f6ab1df9d5bd','19f84868d4b034aa1cf718dfda4104c3f78985d1c27239d9a0b3197aeb37c64e');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','surgeon:01a21616-3510-7454-83f9-98fdfbba373f','protocol signed','reviews','{"fingerprint":"8409d8bc694c76d2"}','19f84868d4b034aa1cf718dfda4104c3f78985d1c27239d9a0b3197aeb37c64e','e6b40615fd1ac389fcbdea295e9a7a647443171ef10a5e212678bca99ad36553');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21616-354b-72e1-9ab1-0707f5ef0f84','01a21616-354a-7118-8348-884737ba5bc4','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-354b-72e1-9ab1-070ae5d2aeb3','01a21616-354b-72e1-9ab1-07092a8ea36f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-354b-72e1-9ab1-070d67f13df2','01a21616-354b-72e1-9ab1-070c8030065e','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-354c-7657-a0cb-81d19556d382','01a21616-354b-72e1-9ab1-070c8030065e','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21616-3563-733f-9e61-732a3810f703','01a21616-3563-733f-9e61-7329a3b2b354','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21616-3564-74bb-913d-7aa588ec7a86','01a21616-3563-733f-9e61-732c8df9f170','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21616-3564-74bb-913d-7aa8c852b68d','01a21616-3564-74bb-913d-7aa799d292be','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21616-3564-74bb-913d-7aaa97961019','01a21616-3563-733f-9e61-732c8df9f170','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21616-3568-72c7-9459-92d02a490068','01a21616-3564-74bb-913d-7aa799d292be','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21616-3587-7091-ae22-1830fe4afa45','01a21616-3563-733f-9e61-732c8df9f170','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21616-3587-7091-ae22-1832ad065d1c','01a21616-3563-733f-9e61-732c8df9f170','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21616-3588-7118-8a47-345a02d08352','01a21616-3563-733f-9e61-732c8df9f170','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21616-3588-7118-8a47-345cee5060aa','01a21616-3563-733f-9e61-732c8df9f170','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21616-35a1-7459-b665-4d13ba66f061','01a21616-35a1-7459-b665-4d1201748765','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21616-35a1-7459-b665-4d165eff9d10','01a21616-35a1-7459-b665-4d1522beb0e9','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21616-35a1-7459-b665-4d18e307bca5','01a21616-35a1-7459-b665-4d1522beb0e9','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21616-35b1-74bd-b627-e41bddec876d','01a21616-3563-733f-9e61-7329a3b2b354','2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21616-36a3-765c-9220-24aeaa9057cf','01a21616-3563-733f-9e61-7329a3b2b354','2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21616-36b5-767c-b913-f1a62ec80dba','01a21616-3563-733f-9e61-7329a3b2b354','2027-03-05T10:00:00.000000Z','nurse:01a21616-350c-74e7-8f11-696992f6aa58','decided','{"by":"Nora Nurse","outcome":"same-day","task":"01a21616-36b5-767c-b913-f1a5b8d9d7f0","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21616-354a-7118-8348-884737ba5bc4','01a21616-3515-765c-8198-43dd2781a6a9','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-354b-72e1-9ab1-07092a8ea36f','01a21616-3515-765c-8198-43dd2781a6a9','posture','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-354b-72e1-9ab1-070c8030065e','01a21616-3515-765c-8198-43dd2781a6a9','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3563-733f-9e61-7329a3b2b354','01a21616-3515-765c-8198-43dd2781a6a9','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','claimed','01a21616-350c-74e7-8f11-696992f6aa58','2027-03-05T10:00:00.000000Z',NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3563-733f-9e61-732c8df9f170','01a21616-3515-765c-8198-43dd2781a6a9','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-3564-74bb-913d-7aa799d292be','01a21616-3515-765c-8198-43dd2781a6a9','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-35a1-7459-b665-4d1201748765','01a21616-3521-70de-9c0e-35ffa72f5003','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21616-35a1-7459-b665-4d1522beb0e9','01a21616-3521-70de-9c0e-35ffa72f5003','silence','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21616-3528-77ed-b003-0f35b59a31ab','01a21616-3515-765c-8198-43dc2466f150','e5d451d81be89dc153f0063a1be96e58440a77157d3578ccb80955e5632c78e7','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21616-3517-756b-885c-c2971ff47ac7','01a21616-3515-765c-8198-43dc2466f150','def1f912d85089ed5e2a4ab5b0044fe00494228361726f63b03087ee0f050e3f','nurse:01a21616-350c-74e7-8f11-696992f6aa58','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21616-3521-70de-9c0e-360689e1b6ec','01a21616-3520-77de-99ff-003c15bf1e66','e277171b3e75058b487723caba9fffc80c541513882f113aba103e820bc09d44','nurse:01a21616-350c-74e7-8f11-696992f6aa58','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21616-3515-765c-8198-43dd2781a6a9','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21616-3528-77ed-b003-0f35b59a31ab','01a21616-3528-77ed-b003-0f35b59a31ab',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21616-3515-765c-8198-43dd2781a6a9','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21616-3528-77ed-b003-0f35b59a31ab','01a21616-3528-77ed-b003-0f35b59a31ab',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21616-357d-7392-bcc9-a1a6f5b39644','01a21616-3515-765c-8198-43dd2781a6a9','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21616-350c-74e7-8f11-696992f6aa58',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21616-357e-7106-b3b0-121021aeb942','01a21616-3515-765c-8198-43dd2781a6a9','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21616-3517-756b-885c-c294dab260c7"}','nurse:01a21616-350c-74e7-8f11-696992f6aa58',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21616-3598-7020-8c3c-c645cb243fbb','01a21616-3521-70de-9c0e-35ffa72f5003','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21616-350c-74e7-8f11-696992f6aa58',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21616-36a3-765c-9220-24af526d5dc3','01a21616-3515-765c-8198-43dd2781a6a9','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21616-350c-74e7-8f11-696992f6aa58',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3515-765c-8198-43dc2466f150','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21616-3515-765c-8198-43de2738c20a','01a21616-3515-765c-8198-43dc2466f150','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21616-3521-70de-9c0e-35ffa72f5003','01a21616-3520-77de-99ff-003c15bf1e66','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21616-3521-70de-9c0e-3600683ff58a','01a21616-3520-77de-99ff-003c15bf1e66','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21616-3517-756b-885c-c296165cf7e4','01a21616-3515-765c-8198-43dd2781a6a9','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21616-350c-74e7-8f11-696992f6aa58');
INSERT INTO "follow_ups" VALUES('01a21616-3521-70de-9c0e-360558ed67d1','01a21616-3521-70de-9c0e-35ffa72f5003','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21616-350c-74e7-8f11-696992f6aa58');
CREATE TABLE job_runs (job TEXT PRIMARY KEY, started_at TEXT NOT NULL, ended_at TEXT, result TEXT) STRICT;
CREATE TABLE looks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", at TEXT NOT NULL, who TEXT NOT NULL
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
CREATE TABLE "operation_records" (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, reason TEXT NOT NULL DEFAULT ''
        ) STRICT;
INSERT INTO "operation_records" VALUES('01a21616-3517-756b-885c-c293029fea11','01a21616-3517-756b-885c-c2929e04e708','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-350c-74e7-8f11-696992f6aa58','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21616-3521-70de-9c0e-3602964a33de','01a21616-3521-70de-9c0e-360173be6eda','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21616-350c-74e7-8f11-696992f6aa58','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21616-3517-756b-885c-c2929e04e708','01a21616-3515-765c-8198-43dd2781a6a9','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21616-3521-70de-9c0e-360173be6eda','01a21616-3521-70de-9c0e-35ffa72f5003','2027-03-02T19:00:00.000000Z');
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('s1','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('ia','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('son','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('pia','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('876','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('erson','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('s','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('09876','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('on','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('009876','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('00','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('1','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('9','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('9876','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('person','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('76','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('rson','01a21616-3515-765c-8198-43dc2466f150');
INSERT INTO "patient_terms" VALUES('laf','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('af','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('876','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('ther','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('olaf','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('2','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('other','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('09876','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('er','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('009876','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('her','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('00','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('9','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('9876','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('s','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('76','01a21616-3520-77de-99ff-003c15bf1e66');
INSERT INTO "patient_terms" VALUES('s2','01a21616-3520-77de-99ff-003c15bf1e66');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients) STRICT;
INSERT INTO "patients" VALUES('01a21616-3515-765c-8198-43dc2466f150','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "patients" VALUES('01a21616-3520-77de-99ff-003c15bf1e66','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE push_subscriptions (
            endpoint TEXT PRIMARY KEY, person TEXT NOT NULL, device_id TEXT REFERENCES devices, p256dh TEXT NOT NULL,
            auth TEXT NOT NULL, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, eye_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3528-77ed-b003-0f35b59a31ab','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21616-3515-765c-8198-43dd2781a6a9", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21616-36bd-767a-9c0e-b328d624d84c','reviews','8409d8bc694c76d2','01a21616-3510-7454-83f9-98fdfbba373f','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a21616-350c-74e7-8f11-696992f6aa58','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$vsJx5e2jh3b5XBPygmrPUg$vQ6CBX51+eiSyhE2HsIlFAWaSQifmZA/U0jyxkRE6V4','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a21616-3510-7454-83f9-98fdfbba373f','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$iGcI7Pvfsu3kB32voRoO2w$6kSXftpAAYA7XDmfyDwi605YT2IY/Me0pF9X0DBolz4','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "tasks" VALUES('01a21616-36b5-767c-b913-f1a5b8d9d7f0','01a21616-3563-733f-9e61-7329a3b2b354','01a21616-3515-765c-8198-43dd2781a6a9','come-today','comes at two','01a21616-36b5-767c-b913-f1a4e9b20d89','01a21616-350c-74e7-8f11-696992f6aa58','2027-03-05T11:00:00.000000Z','01a21616-350c-74e7-8f11-696992f6aa58','2027-03-05T10:00:00.000000Z',NULL,NULL,NULL,'',0);
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE unfounded_warnings (
            warning_id TEXT PRIMARY KEY REFERENCES warnings, event_id TEXT NOT NULL REFERENCES events, at TEXT NOT NULL
        ) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21616-3517-756b-885c-c294dab260c7','01a21616-3515-765c-8198-43dd2781a6a9','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-350c-74e7-8f11-696992f6aa58','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-3517-756b-885c-c294dab260c7');
INSERT INTO "visits" VALUES('01a21616-3517-756b-885c-c295e029272d','01a21616-3515-765c-8198-43dd2781a6a9','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-350c-74e7-8f11-696992f6aa58','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-3517-756b-885c-c295e029272d');
INSERT INTO "visits" VALUES('01a21616-3521-70de-9c0e-360323760a7a','01a21616-3521-70de-9c0e-35ffa72f5003','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21616-350c-74e7-8f11-696992f6aa58','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-3521-70de-9c0e-360323760a7a');
INSERT INTO "visits" VALUES('01a21616-3521-70de-9c0e-3604850702bd','01a21616-3521-70de-9c0e-35ffa72f5003','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21616-350c-74e7-8f11-696992f6aa58','2027-03-02T19:00:00.000000Z',NULL,0,'01a21616-3521-70de-9c0e-3604850702bd');
INSERT INTO "visits" VALUES('01a21616-36b5-767c-b913-f1a4e9b20d89','01a21616-3515-765c-8198-43dd2781a6a9','extra visit','2027-03-05','2027-03-05','2027-03-05','after a callback (infection)','nurse:01a21616-350c-74e7-8f11-696992f6aa58','2027-03-05T10:00:00.000000Z',NULL,0,'01a21616-36b5-767c-b913-f1a4e9b20d89');
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (eye_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a21616-354b-72e1-9ab1-070853be6886','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-354a-7118-8348-884737ba5bc4','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-354b-72e1-9ab1-070b6c3f5b68','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-354b-72e1-9ab1-07092a8ea36f','posture-missed','posture','today','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-354b-72e1-9ab1-070e5d643dd6','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-354b-72e1-9ab1-070c8030065e','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-354c-7657-a0cb-81d257baa004','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-354b-72e1-9ab1-070c8030065e','no-posture-entry','silence','today','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3563-733f-9e61-732b3da7371e','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3563-733f-9e61-7329a3b2b354','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3564-74bb-913d-7aa67e09830a','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3563-733f-9e61-732c8df9f170','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3564-74bb-913d-7aa924e47202','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3564-74bb-913d-7aa799d292be','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','Yor18','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3568-72c7-9459-92cfcf6f7b75','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3563-733f-9e61-732c8df9f170','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3568-72c7-9459-92d16915f3a3','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3564-74bb-913d-7aa799d292be','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','VRS','The patient says that the vision fell.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3587-7091-ae22-18310559270b','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3563-733f-9e61-732c8df9f170','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3587-7091-ae22-18330ec4b606','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3563-733f-9e61-732c8df9f170','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3588-7118-8a47-345b4abb7f49','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3563-733f-9e61-732c8df9f170','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-3588-7118-8a47-345dbf822619','01a21616-3515-765c-8198-43dd2781a6a9','01a21616-3563-733f-9e61-732c8df9f170','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','NICE','Pressure 41 mmHg, 26 above this eye’s own 15.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-35a1-7459-b665-4d14c1cf9460','01a21616-3521-70de-9c0e-35ffa72f5003','01a21616-35a1-7459-b665-4d1201748765','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-35a1-7459-b665-4d170d2b3002','01a21616-3521-70de-9c0e-35ffa72f5003','01a21616-35a1-7459-b665-4d1522beb0e9','no-posture-entry','silence','today','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21616-35a1-7459-b665-4d192eaf3691','01a21616-3521-70de-9c0e-35ffa72f5003','01a21616-35a1-7459-b665-4d1522beb0e9','silent-while-posturing','silence','today','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','f2c6ae7e1c457941','2027-03-05T10:00:00.000000Z');
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE INDEX devices_of_patient ON devices (patient_id);
CREATE INDEX tries_by_key ON tries (what, key, at);
CREATE INDEX visits_by_date ON visits (target);
CREATE UNIQUE INDEX visits_replaced_once ON visits (replaces);
CREATE INDEX events_corrected ON events (corrects);
CREATE UNIQUE INDEX one_open_callback ON callbacks (eye_id, worry) WHERE state != 'settled';
CREATE INDEX callbacks_open ON callbacks (state, due_at);
CREATE INDEX steps_of_callback ON callback_steps (callback_id, at);
CREATE INDEX warnings_of_callback ON warnings (callback_id);
CREATE TRIGGER refused_events_keeps_update BEFORE UPDATE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_delete BEFORE DELETE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
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
CREATE TRIGGER patients_bounds_birth BEFORE INSERT ON patients WHEN NEW.born_on NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.born_on, '+0 days') IS NOT NEW.born_on OR NEW.born_on NOT BETWEEN '1900-01-01' AND date(NEW.created_at, '+1 day') BEGIN SELECT RAISE(ABORT, 'patients: born between 1900 and today'); END;
CREATE TRIGGER patients_bounds_corrected_birth BEFORE UPDATE OF born_on ON patients WHEN NEW.born_on NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.born_on, '+0 days') IS NOT NEW.born_on OR NEW.born_on NOT BETWEEN '1900-01-01' AND '2200-12-31' BEGIN SELECT RAISE(ABORT, 'patients: born between 1900 and today'); END;
CREATE INDEX records_of_operation ON operation_records (operation_id, recorded_at);
CREATE INDEX operations_of_eye ON operations (eye_id);
CREATE INDEX events_of_eye ON events (eye_id, at);
CREATE INDEX visits_of_eye ON visits (eye_id);
CREATE INDEX looks_of_eye ON looks (eye_id, at);
CREATE UNIQUE INDEX eyes_of_patient ON eyes (patient_id, side);
CREATE INDEX follow_ups_of_eye ON follow_ups (eye_id, at);
CREATE INDEX patient_by_term ON patient_terms (term, patient_id);
CREATE INDEX terms_of_patient ON patient_terms (patient_id);
CREATE INDEX patients_by_birth ON patients (born_on);
CREATE TRIGGER follow_ups_keeps_update BEFORE UPDATE ON follow_ups BEGIN SELECT RAISE(ABORT, 'follow_ups is append-only: record a correction instead'); END;
CREATE TRIGGER follow_ups_keeps_delete BEFORE DELETE ON follow_ups BEGIN SELECT RAISE(ABORT, 'follow_ups is append-only: record a correction instead'); END;
CREATE TRIGGER unfounded_warnings_keeps_update BEFORE UPDATE ON unfounded_warnings BEGIN SELECT RAISE(ABORT, 'unfounded_warnings is append-only: record a correction instead'); END;
CREATE TRIGGER unfounded_warnings_keeps_delete BEFORE DELETE ON unfounded_warnings BEGIN SELECT RAISE(ABORT, 'unfounded_warnings is append-only: record a correction instead'); END;
CREATE TRIGGER events_bounds_event BEFORE INSERT ON events WHEN NEW.at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.at, '+0 days') IS NOT substr(NEW.at, 1, 10) OR NEW.received_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.received_at, '+0 days') IS NOT substr(NEW.received_at, 1, 10) OR (NEW.device_at IS NOT NULL AND (NEW.device_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.device_at, '+0 days') IS NOT substr(NEW.device_at, 1, 10))) OR NEW.at < '1989-12-31' OR julianday(NEW.at) > julianday(NEW.received_at) + 2 OR NOT json_valid(NEW.body) OR length(NEW.body) > 40000 BEGIN SELECT RAISE(ABORT, 'events: an event lies between 1990 and its arrival and has a readable body'); END;
CREATE TRIGGER events_keeps_delete BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER events_keeps_update BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_delete BEFORE DELETE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_update BEFORE UPDATE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_bounds_surgery BEFORE INSERT ON operation_records WHEN NEW.operated_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.operated_at, '+0 days') IS NOT substr(NEW.operated_at, 1, 10) OR NEW.recorded_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10) OR NEW.operated_at < '1989-12-31' OR julianday(NEW.operated_at) > julianday(NEW.recorded_at) + 1 OR NOT json_valid(NEW.body) BEGIN SELECT RAISE(ABORT, 'operation_records: surgery lies between 1990 and now'); END;
CREATE TRIGGER operation_records_keeps_delete BEFORE DELETE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_keeps_update BEFORE UPDATE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER visits_keeps_delete BEFORE DELETE ON visits BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
CREATE TRIGGER visits_keeps_update BEFORE UPDATE ON visits
        BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_delete BEFORE DELETE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_update BEFORE UPDATE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER visits_bounds_visit BEFORE INSERT ON visits WHEN
            NEW.target NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.target, '+0 days') IS NOT NEW.target OR NEW.earliest NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.earliest, '+0 days') IS NOT NEW.earliest OR NEW.latest NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.latest, '+0 days') IS NOT NEW.latest
            OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10)
            OR min(NEW.target, NEW.earliest, NEW.latest) < date((SELECT min(r.operated_at) FROM operation_records r JOIN operations o ON o.id = r.operation_id WHERE o.eye_id = NEW.eye_id), '-1 day')
            OR max(NEW.target, NEW.earliest, NEW.latest) > max(
                date((SELECT max(r.operated_at) FROM operation_records r JOIN operations o ON o.id = r.operation_id WHERE o.eye_id = NEW.eye_id), '+3 years', '+1 day'),
                date(NEW.recorded_at, '+1 year', '+1 day'))
        BEGIN SELECT RAISE(ABORT, 'visits: visits lie within three years after surgery'); END;
COMMIT;
