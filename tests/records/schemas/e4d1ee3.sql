BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 00:18:36.003630+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 00:18:36.008089+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 00:18:36.034898+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 00:18:36.047758+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 00:18:36.066313+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 00:18:36.072899+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 00:18:36.082564+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 00:18:36.102714+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 00:18:36.113051+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 00:18:36.116958+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 00:18:36.206745+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 00:18:36.233447+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 00:18:36.237381+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 00:18:36.251598+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21537-ec68-7482-ad90-bb96866fab9c','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','1402cefd57b7fd326b6ae5020a7a3054286f008231bd20ac239b346fa6533982');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21537-ec70-7013-8087-47ca52334814','{"role":"surgeon"}','1402cefd57b7fd326b6ae5020a7a3054286f008231bd20ac239b346fa6533982','948148dee60acf89fc008c361f138575ab1224c4e9f243b0351d1ef0672d08b3');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','enrolment code','01a21537-ec76-77a9-99c8-811bd4664536','null','948148dee60acf89fc008c361f138575ab1224c4e9f243b0351d1ef0672d08b3','23ecf8baa928db5d1347805381dae8f169b37170db90ac8694c775a5fee8fb23');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','discharge','01a21537-ec76-77a9-99c8-811c18623e56','{"agent":"c2f6","eye":"right"}','23ecf8baa928db5d1347805381dae8f169b37170db90ac8694c775a5fee8fb23','25033ce1720db0054d5e021da444739e5be8be75503d026c269341a0c281fc2c');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','enrolment code','01a21537-ec87-7691-aef3-fdd911638d97','null','25033ce1720db0054d5e021da444739e5be8be75503d026c269341a0c281fc2c','cc05f246b2a4f9fbdb6df6b9d9b6f2126da42b8c86f12c5c5f2c9abf00edeca7');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','discharge','01a21537-ec88-710b-9fc3-3422bf53eef0','{"agent":"silicone-oil","eye":"right"}','cc05f246b2a4f9fbdb6df6b9d9b6f2126da42b8c86f12c5c5f2c9abf00edeca7','76512692c1cbc5566f4324a57a00393b7006f095af541fad9ff38800dff768f3');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21537-ec90-772d-bfa8-d07274e84fdb','device enrolled','01a21537-ec76-77a9-99c8-811bd4664536','null','76512692c1cbc5566f4324a57a00393b7006f095af541fad9ff38800dff768f3','c5179a2c515898a881e95268f90d9c3b54c71be31681fc2711738effbd66ec4b');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21537-ec90-772d-bfa8-d07274e84fdb','event posture','01a21537-ec76-77a9-99c8-811c18623e56','{"id":"0195e5a0-0000-7000-8000-000000000001"}','c5179a2c515898a881e95268f90d9c3b54c71be31681fc2711738effbd66ec4b','aa3685b5f2b7eeecc0759ae59b7759cbf0971153d543cbccfab71bb195ee9c6f');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"today","rule":"missed-early-visit"}','aa3685b5f2b7eeecc0759ae59b7759cbf0971153d543cbccfab71bb195ee9c6f','de0cdb01ee6c5d0e234f9b799b04d25c5f5c2f7822470866075a1ed73a7c85dd');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"this-week","rule":"posture-missed"}','de0cdb01ee6c5d0e234f9b799b04d25c5f5c2f7822470866075a1ed73a7c85dd','c7bfae80c1540b8e7f1d758e6f2787b93608617efc4ac5641cba2453c22586e6');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"this-week","rule":"silent-while-posturing"}','c7bfae80c1540b8e7f1d758e6f2787b93608617efc4ac5641cba2453c22586e6','581bbe13d401fd4d5503bf7c1d264492b49eed3b584ab8e93f0bea0224b5a5d0');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"this-week","rule":"no-posture-entry"}','581bbe13d401fd4d5503bf7c1d264492b49eed3b584ab8e93f0bea0224b5a5d0','18c8afffd04634599c0f0e87a8d8d751fea02f51009f9e0062b3277462e3a52d');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21537-ec90-772d-bfa8-d07274e84fdb','event symptoms','01a21537-ec76-77a9-99c8-811c18623e56','{"id":"0195e5a0-0000-7000-8000-000000000002"}','18c8afffd04634599c0f0e87a8d8d751fea02f51009f9e0062b3277462e3a52d','e7dd1a36b24363e842e62b09ccbe58f75be5919f4f80b6fb451a51fc0255962a');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"now","rule":"infection-suspected"}','e7dd1a36b24363e842e62b09ccbe58f75be5919f4f80b6fb451a51fc0255962a','50db2a8e95dab3f084806e759c8156d421d6f18b5d09ab2ccfb87f6b22da63a8');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"now","rule":"severe-pain"}','50db2a8e95dab3f084806e759c8156d421d6f18b5d09ab2ccfb87f6b22da63a8','36a53d1ebc3f033d6f74867b1f378ffec677c4460e17652defe08a5c7b6d2894');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"today","rule":"curtain"}','36a53d1ebc3f033d6f74867b1f378ffec677c4460e17652defe08a5c7b6d2894','010493937db4bcb06441e3b6e36a0aac6d24709371018994c07f35ea02983cb7');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"today","rule":"pain"}','010493937db4bcb06441e3b6e36a0aac6d24709371018994c07f35ea02983cb7','76ac90b1f531bf12ed7c44c1cceb1edb05129d7fcca8e2b6b16ece14921364a6');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"today","rule":"vision-worse"}','76ac90b1f531bf12ed7c44c1cceb1edb05129d7fcca8e2b6b16ece14921364a6','2bc8d1c8b17014b66710255378400fd32e052a3b05c1a7ebab3fc7620e636cce');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"this-week","rule":"vision-said-worse"}','2bc8d1c8b17014b66710255378400fd32e052a3b05c1a7ebab3fc7620e636cce','2f3da77d097fd5f48fd60beadd969a34741a77f3359ab2e351293dc083b73623');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','event measures','01a21537-ec76-77a9-99c8-811c18623e56','{"id":"01a21537-ed9a-7185-bace-0fa008a89004"}','2f3da77d097fd5f48fd60beadd969a34741a77f3359ab2e351293dc083b73623','3ccdd137f30995838f79c72f0d7fbbfa7dc98c4f1d867cd76cf0016a9c584417');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','event seen','01a21537-ec76-77a9-99c8-811c18623e56','{"id":"01a21537-ed9c-720d-aada-c46545c8f389"}','3ccdd137f30995838f79c72f0d7fbbfa7dc98c4f1d867cd76cf0016a9c584417','03ae09e433c459ca1dbebdf76207327d3af52a969c4152d9a263d875b7bd5b50');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"now","rule":"pressure-severe"}','03ae09e433c459ca1dbebdf76207327d3af52a969c4152d9a263d875b7bd5b50','f331f81ab18c885c76f58671e4add6559de58ce6e9f8107b77150ea56a7556cf');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"today","rule":"pressure-spike"}','f331f81ab18c885c76f58671e4add6559de58ce6e9f8107b77150ea56a7556cf','34ba5fae3ade2ad3e79e73d16bf11314196c1986967c9792b253e780692af39a');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"this-week","rule":"pressure-raised"}','34ba5fae3ade2ad3e79e73d16bf11314196c1986967c9792b253e780692af39a','da51517b8875aceb7eead57f77bc0b250b2cce28415e72d564ef27dc7a1b1918');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"this-week","rule":"pressure-rise"}','da51517b8875aceb7eead57f77bc0b250b2cce28415e72d564ef27dc7a1b1918','ad64faa739265559900d784477d804f1da5c924d60cb5ee1b0b43f9923637003');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec76-77a9-99c8-811c18623e56','{"how_soon":"this-week","rule":"pressure-rising"}','ad64faa739265559900d784477d804f1da5c924d60cb5ee1b0b43f9923637003','43c43ca99dd5b5237ae44b9b552f7495f27b890c70e7e435eb397ea059cc615f');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','event measures','01a21537-ec88-710b-9fc3-3422bf53eef0','{"id":"01a21537-ee0c-7304-b0df-04188046ffdb"}','43c43ca99dd5b5237ae44b9b552f7495f27b890c70e7e435eb397ea059cc615f','2d1aa03e1fadd9e3c757dce477e880d1172071f7f50b9d7d6ebb837921ea7020');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec88-710b-9fc3-3422bf53eef0','{"how_soon":"today","rule":"missed-early-visit"}','2d1aa03e1fadd9e3c757dce477e880d1172071f7f50b9d7d6ebb837921ea7020','255bb7bc9abc5c559644711ad905aba42af096bac9353ffc1eb3604f46e3aca2');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec88-710b-9fc3-3422bf53eef0','{"how_soon":"this-week","rule":"no-posture-entry"}','255bb7bc9abc5c559644711ad905aba42af096bac9353ffc1eb3604f46e3aca2','4f8fdd0f5ac1cbecef6391d84fe53b5016f812f82102b5fddc83d1c63ab6f390');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21537-ec88-710b-9fc3-3422bf53eef0','{"how_soon":"this-week","rule":"silent-while-posturing"}','4f8fdd0f5ac1cbecef6391d84fe53b5016f812f82102b5fddc83d1c63ab6f390','957a03f9d8a03c4e0a7d91ab47f55a08715bf10bd7bed4dba763b205dd88c2dd');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','callback claimed','01a21537-ed47-722e-be2a-ea4c4e1946ab','null','957a03f9d8a03c4e0a7d91ab47f55a08715bf10bd7bed4dba763b205dd88c2dd','021e11286ad64dda0cb070e9adc5d188cd8020c8f18054ba7daa2fe280528107');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','callback attempt','01a21537-ed47-722e-be2a-ea4c4e1946ab','{"reached":true}','021e11286ad64dda0cb070e9adc5d188cd8020c8f18054ba7daa2fe280528107','bdfa2fea7bee3b8770560fe598659f6d7adbf21df4895cc66750166b453f82af');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','callback settled','01a21537-ed47-722e-be2a-ea4c4e1946ab','{"outcome":"advice"}','bdfa2fea7bee3b8770560fe598659f6d7adbf21df4895cc66750166b453f82af','3c7b03f9154685cb8bd83535b3b981552d2fb586252b86ef002a4f7d82585b46');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a21537-ec70-7013-8087-47ca52334814','protocol signed','reviews','{"fingerprint":"94682d816bcc0e77"}','3c7b03f9154685cb8bd83535b3b981552d2fb586252b86ef002a4f7d82585b46','fd4685913e055de6903281e2c3467af89b5e4001bcbfeab00d90c81308c07975');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21537-ece3-76a0-85cb-94e4a53bb198','01a21537-ece3-76a0-85cb-94e3c9c03fc0','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21537-ecec-75b2-b9ab-22c8d31acda4','01a21537-ecec-75b2-b9ab-22c71949c1d3','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21537-ecec-75b2-b9ab-22cb425530f0','01a21537-ecec-75b2-b9ab-22ca2dfbdea3','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21537-eced-77d6-af85-91955e1fe134','01a21537-ecec-75b2-b9ab-22ca2dfbdea3','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21537-ed47-722e-be2a-ea4d8b2892c4','01a21537-ed47-722e-be2a-ea4c4e1946ab','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21537-ed48-778b-beae-800c4e1d1d0c','01a21537-ed48-778b-beae-800b57aaf570','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21537-ed48-778b-beae-800f703bba49','01a21537-ed48-778b-beae-800eee8f83e5','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21537-ed49-71ff-94f3-3ab4f56e535a','01a21537-ed48-778b-beae-800b57aaf570','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21537-ed49-71ff-94f3-3ab684201f79','01a21537-ed48-778b-beae-800eee8f83e5','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21537-ed54-76ca-bd5f-07d85f9f2109','01a21537-ed48-778b-beae-800eee8f83e5','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a21537-edd2-7113-a91d-992aec910c51','01a21537-ed48-778b-beae-800b57aaf570','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21537-edd2-7113-a91d-992c900f526c','01a21537-ed48-778b-beae-800b57aaf570','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21537-edd2-7113-a91d-992ef950fdfa','01a21537-ed48-778b-beae-800b57aaf570','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21537-edd2-7113-a91d-99304a806bed','01a21537-ed48-778b-beae-800b57aaf570','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21537-edd2-7113-a91d-99325cf900d7','01a21537-ed48-778b-beae-800b57aaf570','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a21537-ee1e-727d-a62a-098e2798d762','01a21537-ee1e-727d-a62a-098da1ecf446','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21537-ee1f-77fe-a20e-cad81b72eafd','01a21537-ee1f-77fe-a20e-cad761d3507a','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21537-ee1f-77fe-a20e-cada65d219f1','01a21537-ee1f-77fe-a20e-cad761d3507a','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21537-ee53-7627-b1a9-13dec78596fa','01a21537-ed47-722e-be2a-ea4c4e1946ab','2027-03-05T10:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21537-ee5d-76ce-90f7-cca51bfea7aa','01a21537-ed47-722e-be2a-ea4c4e1946ab','2027-03-05T10:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21537-ee60-7495-8bc9-48e224feb02c','01a21537-ed47-722e-be2a-ea4c4e1946ab','2027-03-05T10:00:00.000000Z','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21537-ece3-76a0-85cb-94e3c9c03fc0','01a21537-ec76-77a9-99c8-811c18623e56','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21537-ecec-75b2-b9ab-22c71949c1d3','01a21537-ec76-77a9-99c8-811c18623e56','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21537-ecec-75b2-b9ab-22ca2dfbdea3','01a21537-ec76-77a9-99c8-811c18623e56','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21537-ed47-722e-be2a-ea4c4e1946ab','01a21537-ec76-77a9-99c8-811c18623e56','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a21537-ec68-7482-ad90-bb96866fab9c','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a21537-ec68-7482-ad90-bb96866fab9c',NULL,0);
INSERT INTO "callbacks" VALUES('01a21537-ed48-778b-beae-800b57aaf570','01a21537-ec76-77a9-99c8-811c18623e56','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21537-ed48-778b-beae-800eee8f83e5','01a21537-ec76-77a9-99c8-811c18623e56','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21537-ee1e-727d-a62a-098da1ecf446','01a21537-ec88-710b-9fc3-3422bf53eef0','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21537-ee1f-77fe-a20e-cad761d3507a','01a21537-ec88-710b-9fc3-3422bf53eef0','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21537-ec90-772d-bfa8-d07274e84fdb','01a21537-ec76-77a9-99c8-811bd4664536','2123252119c12dffeb6c39383c4718bf4fd5b22f47f9deb2f324c5f7d9469fd9','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21537-ec7e-70d0-bff6-9e0420398060','01a21537-ec76-77a9-99c8-811bd4664536','7d1b335a7d027d7fc0edf7263dd994becbbc6f0026be25c3e7e0682cb4f4f3f8','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21537-ec88-710b-9fc3-3429a168a047','01a21537-ec87-7691-aef3-fdd911638d97','8952d818480275f8c7bbf4ac12b47f5751428856085f556c0e9965e0811b406e','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21537-ec76-77a9-99c8-811c18623e56','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21537-ec90-772d-bfa8-d07274e84fdb','01a21537-ec90-772d-bfa8-d07274e84fdb',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21537-ec76-77a9-99c8-811c18623e56','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21537-ec90-772d-bfa8-d07274e84fdb','01a21537-ec90-772d-bfa8-d07274e84fdb',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21537-ed9a-7185-bace-0fa008a89004','01a21537-ec76-77a9-99c8-811c18623e56','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21537-ec68-7482-ad90-bb96866fab9c',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21537-ed9c-720d-aada-c46545c8f389','01a21537-ec76-77a9-99c8-811c18623e56','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21537-ec7e-70d0-bff6-9e0190a58657"}','nurse:01a21537-ec68-7482-ad90-bb96866fab9c',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21537-ee0c-7304-b0df-04188046ffdb','01a21537-ec88-710b-9fc3-3422bf53eef0','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21537-ec68-7482-ad90-bb96866fab9c',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21537-ee5d-76ce-90f7-cca40aec896c','01a21537-ec76-77a9-99c8-811c18623e56','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21537-ec68-7482-ad90-bb96866fab9c',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ec76-77a9-99c8-811bd4664536','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21537-ec76-77a9-99c8-811d279b25b7','01a21537-ec76-77a9-99c8-811bd4664536','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21537-ec88-710b-9fc3-3422bf53eef0','01a21537-ec87-7691-aef3-fdd911638d97','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21537-ec88-710b-9fc3-3423008a6b2a','01a21537-ec87-7691-aef3-fdd911638d97','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21537-ec7e-70d0-bff6-9e03b62e00fa','01a21537-ec76-77a9-99c8-811c18623e56','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21537-ec68-7482-ad90-bb96866fab9c');
INSERT INTO "follow_ups" VALUES('01a21537-ec88-710b-9fc3-34285ab7dd33','01a21537-ec88-710b-9fc3-3422bf53eef0','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21537-ec68-7482-ad90-bb96866fab9c');
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
INSERT INTO "operation_records" VALUES('01a21537-ec7d-71b2-b66e-266b1a865465','01a21537-ec7d-71b2-b66e-266a3cb14490','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21537-ec88-710b-9fc3-342523c0bc84','01a21537-ec88-710b-9fc3-342429718326','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21537-ec7d-71b2-b66e-266a3cb14490','01a21537-ec76-77a9-99c8-811c18623e56','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21537-ec88-710b-9fc3-342429718326','01a21537-ec88-710b-9fc3-3422bf53eef0','2027-03-02T19:00:00.000000Z');
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('pia','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('00','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('on','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('erson','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('son','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('person','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('s1','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('rson','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('876','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('76','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('9','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('009876','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('1','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('ia','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('s','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('09876','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('9876','01a21537-ec76-77a9-99c8-811bd4664536');
INSERT INTO "patient_terms" VALUES('00','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('other','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('laf','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('s2','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('ther','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('9','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('2','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('876','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('76','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('olaf','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('009876','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('af','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('er','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('her','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('s','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('09876','01a21537-ec87-7691-aef3-fdd911638d97');
INSERT INTO "patient_terms" VALUES('9876','01a21537-ec87-7691-aef3-fdd911638d97');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a21537-ec76-77a9-99c8-811bd4664536','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a21537-ec87-7691-aef3-fdd911638d97','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ec90-772d-bfa8-d07274e84fdb','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21537-ec76-77a9-99c8-811c18623e56", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21537-eec4-733e-bf9c-da3bbe008410','reviews','94682d816bcc0e77','01a21537-ec70-7013-8087-47ca52334814','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a21537-ec68-7482-ad90-bb96866fab9c','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$1GZCBeILwfM8+QXIQ44r+w$q5ZItivSwpSeVVT04OPxCx/a7qbzg4HuMCLBZZtkB+U','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a21537-ec70-7013-8087-47ca52334814','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$XD4dXC+LT3WNTpp2fRLhKw$J3iA1Sou/rAhnRfE+C4jKIQthsL0xVhKvYpb9DEMHpA','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        , decision TEXT) STRICT;
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21537-ec7e-70d0-bff6-9e0190a58657','01a21537-ec76-77a9-99c8-811c18623e56','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','2027-03-02T19:00:00.000000Z',NULL,0,'01a21537-ec7e-70d0-bff6-9e0190a58657');
INSERT INTO "visits" VALUES('01a21537-ec7e-70d0-bff6-9e02f07fac15','01a21537-ec76-77a9-99c8-811c18623e56','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','2027-03-02T19:00:00.000000Z',NULL,0,'01a21537-ec7e-70d0-bff6-9e02f07fac15');
INSERT INTO "visits" VALUES('01a21537-ec88-710b-9fc3-3426fcc9190a','01a21537-ec88-710b-9fc3-3422bf53eef0','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','2027-03-02T19:00:00.000000Z',NULL,0,'01a21537-ec88-710b-9fc3-3426fcc9190a');
INSERT INTO "visits" VALUES('01a21537-ec88-710b-9fc3-34275dd7455e','01a21537-ec88-710b-9fc3-3422bf53eef0','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21537-ec68-7482-ad90-bb96866fab9c','2027-03-02T19:00:00.000000Z',NULL,0,'01a21537-ec88-710b-9fc3-34275dd7455e');
CREATE TABLE warning_grounds (
            number INTEGER PRIMARY KEY, warning_id TEXT NOT NULL REFERENCES warnings,
            unfounded INTEGER NOT NULL CHECK (unfounded IN (0, 1)), event_id TEXT REFERENCES events,
            note_id TEXT REFERENCES operation_records, at TEXT NOT NULL, CHECK ((event_id IS NULL) != (note_id IS NULL))
        ) STRICT;
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (eye_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a21537-ece3-76a0-85cb-94e5bfe823a4','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ece3-76a0-85cb-94e3c9c03fc0','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ecec-75b2-b9ab-22c964634e6f','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ecec-75b2-b9ab-22c71949c1d3','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ecec-75b2-b9ab-22cc38eae9a1','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ecec-75b2-b9ab-22ca2dfbdea3','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-eced-77d6-af85-919665b84864','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ecec-75b2-b9ab-22ca2dfbdea3','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ed47-722e-be2a-ea4e3af0f42d','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed47-722e-be2a-ea4c4e1946ab','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ed48-778b-beae-800dbc4ce786','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800b57aaf570','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ed48-778b-beae-8010f491f61e','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800eee8f83e5','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ed49-71ff-94f3-3ab54fb148d8','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800b57aaf570','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ed49-71ff-94f3-3ab782f5dc1d','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800eee8f83e5','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ed54-76ca-bd5f-07d920075ceb','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800eee8f83e5','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-edd2-7113-a91d-992be6b29869','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800b57aaf570','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-edd2-7113-a91d-992d5ca2edf2','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800b57aaf570','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-edd2-7113-a91d-992f606eb3d4','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800b57aaf570','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-edd2-7113-a91d-9931532e908f','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800b57aaf570','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-edd2-7113-a91d-99332847d12f','01a21537-ec76-77a9-99c8-811c18623e56','01a21537-ed48-778b-beae-800b57aaf570','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ee1e-727d-a62a-098fee109ef3','01a21537-ec88-710b-9fc3-3422bf53eef0','01a21537-ee1e-727d-a62a-098da1ecf446','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ee1f-77fe-a20e-cad9b5153f10','01a21537-ec88-710b-9fc3-3422bf53eef0','01a21537-ee1f-77fe-a20e-cad761d3507a','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21537-ee1f-77fe-a20e-cadbd8fd3b69','01a21537-ec88-710b-9fc3-3422bf53eef0','01a21537-ee1f-77fe-a20e-cad761d3507a','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','bcb4ab9d74ca5c6a','2027-03-05T10:00:00.000000Z');
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
CREATE TRIGGER events_bounds_event BEFORE INSERT ON events WHEN NEW.at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.at, '+0 days') IS NOT substr(NEW.at, 1, 10) OR NEW.received_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.received_at, '+0 days') IS NOT substr(NEW.received_at, 1, 10) OR (NEW.device_at IS NOT NULL AND (NEW.device_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.device_at, '+0 days') IS NOT substr(NEW.device_at, 1, 10))) OR NEW.at < '1989-12-31' OR julianday(NEW.at) > julianday(NEW.received_at) + 2 OR NOT json_valid(NEW.body) OR length(NEW.body) > 40000 BEGIN SELECT RAISE(ABORT, 'events: an event lies between 1990 and its arrival and has a readable body'); END;
CREATE TRIGGER events_keeps_delete BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER events_keeps_update BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_delete BEFORE DELETE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_update BEFORE UPDATE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_bounds_surgery BEFORE INSERT ON operation_records WHEN NEW.operated_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.operated_at, '+0 days') IS NOT substr(NEW.operated_at, 1, 10) OR NEW.recorded_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10) OR NEW.operated_at < '1989-12-31' OR julianday(NEW.operated_at) > julianday(NEW.recorded_at) + 1 OR NOT json_valid(NEW.body) BEGIN SELECT RAISE(ABORT, 'operation_records: surgery lies between 1990 and now'); END;
CREATE TRIGGER operation_records_keeps_delete BEFORE DELETE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_keeps_update BEFORE UPDATE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_delete BEFORE DELETE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_update BEFORE UPDATE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
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
CREATE INDEX grounds_of_warning ON warning_grounds (warning_id, number);
CREATE TRIGGER warning_grounds_keeps_update BEFORE UPDATE ON warning_grounds BEGIN SELECT RAISE(ABORT, 'warning_grounds is append-only: record a correction instead'); END;
CREATE TRIGGER warning_grounds_keeps_delete BEFORE DELETE ON warning_grounds BEGIN SELECT RAISE(ABORT, 'warning_grounds is append-only: record a correction instead'); END;
CREATE INDEX eyes_joined ON eyes (joined_into) WHERE joined_into IS NOT NULL;
CREATE INDEX patients_joined ON patients (joined_into) WHERE joined_into IS NOT NULL;
CREATE INDEX tasks_of_decision ON tasks (decision) WHERE decision IS NOT NULL;
COMMIT;
