BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-25 22:29:33.906702+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-25 22:29:33.909804+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-25 22:29:33.913408+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-25 22:29:33.915530+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-25 22:29:33.918008+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-25 22:29:33.919339+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-25 22:29:33.922432+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-25 22:29:33.924731+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-25 22:29:33.926549+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-25 22:29:33.928251+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-25 22:29:33.947699+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-25 22:29:33.949997+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-25 22:29:33.951330+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a214d4-1880-72dc-87a7-98a8a0d0e76a','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','9567a8d761dbe040570c064e25201db7ab737178898790c00e1594ce86999738');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a214d4-1882-7770-a236-8f1550797a6a','{"role":"surgeon"}','9567a8d761dbe040570c064e25201db7ab737178898790c00e1594ce86999738','648dcd103459e6338eb6f8a7b87cb0a7fe29649aa384bb1a11271104ac2337dd');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','enrolment code','01a214d4-1884-71c3-b64f-46dd3ad4c1aa','null','648dcd103459e6338eb6f8a7b87cb0a7fe29649aa384bb1a11271104ac2337dd','17f35b63e15b63570135cff393381ac506326112b369636f12d95d0369a95668');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','discharge','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"agent":"c2f6","eye":"right"}','17f35b63e15b63570135cff393381ac506326112b369636f12d95d0369a95668','c25044ab9b2f718da8e385d7ecaeeeaa9e2078e0cffed589a12a4031c6bb76cc');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','enrolment code','01a214d4-1888-748c-ae8d-c4f0471eca04','null','c25044ab9b2f718da8e385d7ecaeeeaa9e2078e0cffed589a12a4031c6bb76cc','523dc9471e2b1d619df94a4b85fa3e955c0032bbc8126f76e37a80fb54ef281b');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','discharge','01a214d4-1888-748c-ae8d-c4f15f18a115','{"agent":"silicone-oil","eye":"right"}','523dc9471e2b1d619df94a4b85fa3e955c0032bbc8126f76e37a80fb54ef281b','0c12b793a5aca49a7f9d5706092874311f6a90a69077559b641676e8551ee162');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a214d4-188a-76c2-ab7e-0b5c138f1c99','device enrolled','01a214d4-1884-71c3-b64f-46dd3ad4c1aa','null','0c12b793a5aca49a7f9d5706092874311f6a90a69077559b641676e8551ee162','f8a19628a49177455ad9555e60a08f426e4b53c3981b55e73e60bf2efeaef401');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a214d4-188a-76c2-ab7e-0b5c138f1c99','event posture','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"id":"0195e5a0-0000-7000-8000-000000000001"}','f8a19628a49177455ad9555e60a08f426e4b53c3981b55e73e60bf2efeaef401','35cde93e85529d7dce4a6b0009f2e60cb6604c0b6d89580928d69c7f6871762e');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"today","rule":"missed-early-visit"}','35cde93e85529d7dce4a6b0009f2e60cb6604c0b6d89580928d69c7f6871762e','bca340a33ff77f3044b41ad7544e3b439f8618ab2f23d30fbfde3d1863f1df05');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"this-week","rule":"posture-missed"}','bca340a33ff77f3044b41ad7544e3b439f8618ab2f23d30fbfde3d1863f1df05','b65b5832915a984ce2c7ec08b47932b2e7e7d41b094292464bc37218477473f8');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"this-week","rule":"silent-while-posturing"}','b65b5832915a984ce2c7ec08b47932b2e7e7d41b094292464bc37218477473f8','8dab62302f9efb65c81b290b5ddec2b5b28fa1816310ec2cd8d60cd16d091dca');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"this-week","rule":"no-posture-entry"}','8dab62302f9efb65c81b290b5ddec2b5b28fa1816310ec2cd8d60cd16d091dca','c250107e5c730033205535d2b80fe2b98ca876c82af12bad9084ee11f1dc804e');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a214d4-188a-76c2-ab7e-0b5c138f1c99','event symptoms','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"id":"0195e5a0-0000-7000-8000-000000000002"}','c250107e5c730033205535d2b80fe2b98ca876c82af12bad9084ee11f1dc804e','8537e361fee7bdaed5bdbce661d9066bf9e2532d069ee72b800be2ce7d2cd38b');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"now","rule":"infection-suspected"}','8537e361fee7bdaed5bdbce661d9066bf9e2532d069ee72b800be2ce7d2cd38b','022d2990d7847dfd4073abc3bbda8a219e6fd72d1704d543afcd39e5617ed714');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"now","rule":"severe-pain"}','022d2990d7847dfd4073abc3bbda8a219e6fd72d1704d543afcd39e5617ed714','96e570a56d14105b0df9f40beb000f41fbc3ceaddf0fce3e25d6f41cd3a8ad5e');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"today","rule":"curtain"}','96e570a56d14105b0df9f40beb000f41fbc3ceaddf0fce3e25d6f41cd3a8ad5e','e6582cd1a8d12be027664e42e004308db32a19f3701165692255870bf71da234');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"today","rule":"pain"}','e6582cd1a8d12be027664e42e004308db32a19f3701165692255870bf71da234','29e9fde1597ae79b85200eb82dbb8ea21eefe39b7bab791c88e88a70ee4e3e26');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"today","rule":"vision-worse"}','29e9fde1597ae79b85200eb82dbb8ea21eefe39b7bab791c88e88a70ee4e3e26','a827ad39c87d053846af72c3b12b8bcba0578238c81739eeae54274f7044c431');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"this-week","rule":"vision-said-worse"}','a827ad39c87d053846af72c3b12b8bcba0578238c81739eeae54274f7044c431','dd88266276016aef4163b8062c1eb9be48952befdfee58c54fcd5c90ca157132');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','event measures','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"id":"01a214d4-18b3-77c7-b71a-dac65114e5f7"}','dd88266276016aef4163b8062c1eb9be48952befdfee58c54fcd5c90ca157132','15b558cde9287dadbec5a436241b87be31176c04b3e3cd95b50f0484fa19421b');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','event seen','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"id":"01a214d4-18b4-72c2-bf61-04a21267e76e"}','15b558cde9287dadbec5a436241b87be31176c04b3e3cd95b50f0484fa19421b','cc03e5d371400fcfefdc804bb11a9d249a6e49d84a83d0edc3bd5fa13fe42e48');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"now","rule":"pressure-severe"}','cc03e5d371400fcfefdc804bb11a9d249a6e49d84a83d0edc3bd5fa13fe42e48','5f2e63b696e583d1cccd255c4c5abdaafa019d3cca4075a5265382c88e1e08a3');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"today","rule":"pressure-spike"}','5f2e63b696e583d1cccd255c4c5abdaafa019d3cca4075a5265382c88e1e08a3','742c9c38b57cda52911b5c79e5b38c3b8ed1bf8dac735fd5171962bc1696df34');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"this-week","rule":"pressure-raised"}','742c9c38b57cda52911b5c79e5b38c3b8ed1bf8dac735fd5171962bc1696df34','db8b10e1d5e8b5d89721358bf5200a8de37ade72fd42fc7181a022ce90a4de18');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"this-week","rule":"pressure-rise"}','db8b10e1d5e8b5d89721358bf5200a8de37ade72fd42fc7181a022ce90a4de18','75fa74ae1274661c03d7739e701050cb7a450241ec17cab1ec233ba507059089');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1884-71c3-b64f-46de0a4ad75f','{"how_soon":"this-week","rule":"pressure-rising"}','75fa74ae1274661c03d7739e701050cb7a450241ec17cab1ec233ba507059089','b6b2a0d846a10a5c8313e7e8969b361f5d3b90db2dfd50c60409c84b2d4aedab');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','event measures','01a214d4-1888-748c-ae8d-c4f15f18a115','{"id":"01a214d4-18c2-74fa-a061-ce504a778fbc"}','b6b2a0d846a10a5c8313e7e8969b361f5d3b90db2dfd50c60409c84b2d4aedab','b8e70f1c29e3da19f41cd2d9cd1752498036105669d9ada8cbde1c8c75d7843b');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1888-748c-ae8d-c4f15f18a115','{"how_soon":"today","rule":"missed-early-visit"}','b8e70f1c29e3da19f41cd2d9cd1752498036105669d9ada8cbde1c8c75d7843b','620d6816fa45c7b1aecbd8b34eb4884ab51089efd3fb7bb0fd634d3a3b3d4244');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1888-748c-ae8d-c4f15f18a115','{"how_soon":"this-week","rule":"no-posture-entry"}','620d6816fa45c7b1aecbd8b34eb4884ab51089efd3fb7bb0fd634d3a3b3d4244','5ee6b586e99705d19f66a785d172507825f6faa7bd6e042d8e4723291841dada');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a214d4-1888-748c-ae8d-c4f15f18a115','{"how_soon":"this-week","rule":"silent-while-posturing"}','5ee6b586e99705d19f66a785d172507825f6faa7bd6e042d8e4723291841dada','b4a3a1ed90fbf0b7438ac548702a4dcf2269f2c5460dbad4a1bbc80b089a9369');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','callback claimed','01a214d4-18aa-71d7-9ba5-4173e7f70a98','null','b4a3a1ed90fbf0b7438ac548702a4dcf2269f2c5460dbad4a1bbc80b089a9369','5862b0abba3db9573632d19fc2e99fb2a2c787a50a0470978223fcac3a111282');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','callback attempt','01a214d4-18aa-71d7-9ba5-4173e7f70a98','{"reached":true}','5862b0abba3db9573632d19fc2e99fb2a2c787a50a0470978223fcac3a111282','57c61190b89c3b10d41c1dc516a18cddaed84ad6c28faa63bd6ad8f554de9de6');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','callback settled','01a214d4-18aa-71d7-9ba5-4173e7f70a98','{"outcome":"advice"}','57c61190b89c3b10d41c1dc516a18cddaed84ad6c28faa63bd6ad8f554de9de6','a81ef87a448ac72825459dac61945e72e8975f0849cfd0eb2bd2fa49b470430c');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','surgeon:01a214d4-1882-7770-a236-8f1550797a6a','protocol signed','reviews','{"fingerprint":"94682d816bcc0e77"}','a81ef87a448ac72825459dac61945e72e8975f0849cfd0eb2bd2fa49b470430c','f35c4deae892597c1c96dcc0058eee875836cedad167c4b1e02391920e71cbf0');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a214d4-189d-7180-b425-dbab8159ad56','01a214d4-189d-7180-b425-dbaa63bcb6b9','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a214d4-189d-7180-b425-dbaee45f78c4','01a214d4-189d-7180-b425-dbadb7a6634d','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a214d4-189e-7612-bdd4-c05744bda242','01a214d4-189e-7612-bdd4-c056da5f95cc','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a214d4-189e-7612-bdd4-c0595fe088d2','01a214d4-189e-7612-bdd4-c056da5f95cc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18aa-71d7-9ba5-4174c944b37a','01a214d4-18aa-71d7-9ba5-4173e7f70a98','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18aa-71d7-9ba5-417723fad6a4','01a214d4-18aa-71d7-9ba5-4176a5235f5b','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18aa-71d7-9ba5-417a23cf9755','01a214d4-18aa-71d7-9ba5-4179c8df4521','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18ab-77ef-8b34-09b63761f700','01a214d4-18aa-71d7-9ba5-4176a5235f5b','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18ab-77ef-8b34-09b8fa4d7c5e','01a214d4-18aa-71d7-9ba5-4179c8df4521','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18ab-77ef-8b34-09bafe1f0ab3','01a214d4-18aa-71d7-9ba5-4179c8df4521','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18bb-7640-8bc4-23dcfe24f261','01a214d4-18aa-71d7-9ba5-4176a5235f5b','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18bb-7640-8bc4-23de2c046531','01a214d4-18aa-71d7-9ba5-4176a5235f5b','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18bc-709c-952b-6cf0b7253219','01a214d4-18aa-71d7-9ba5-4176a5235f5b','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18bc-709c-952b-6cf28fde08a7','01a214d4-18aa-71d7-9ba5-4176a5235f5b','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18bc-709c-952b-6cf4f357ac1b','01a214d4-18aa-71d7-9ba5-4176a5235f5b','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18c7-7070-ae59-9d853fd0ac83','01a214d4-18c7-7070-ae59-9d845a63279f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18c7-7070-ae59-9d88ec8994d8','01a214d4-18c7-7070-ae59-9d874ee2da62','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18c8-7367-84e3-6d2e1191fe27','01a214d4-18c7-7070-ae59-9d874ee2da62','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a214d4-18d1-7466-9bd9-d31db8d1c4ad','01a214d4-18aa-71d7-9ba5-4173e7f70a98','2027-03-05T10:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a214d4-18d3-7142-ad8c-263ce1266efe','01a214d4-18aa-71d7-9ba5-4173e7f70a98','2027-03-05T10:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a214d4-18d5-714e-bc62-8f21d33d64c7','01a214d4-18aa-71d7-9ba5-4173e7f70a98','2027-03-05T10:00:00.000000Z','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a214d4-189d-7180-b425-dbaa63bcb6b9','01a214d4-1884-71c3-b64f-46de0a4ad75f','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a214d4-189d-7180-b425-dbadb7a6634d','01a214d4-1884-71c3-b64f-46de0a4ad75f','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a214d4-189e-7612-bdd4-c056da5f95cc','01a214d4-1884-71c3-b64f-46de0a4ad75f','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a214d4-18aa-71d7-9ba5-4173e7f70a98','01a214d4-1884-71c3-b64f-46de0a4ad75f','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a214d4-1880-72dc-87a7-98a8a0d0e76a','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a214d4-1880-72dc-87a7-98a8a0d0e76a',NULL,0);
INSERT INTO "callbacks" VALUES('01a214d4-18aa-71d7-9ba5-4176a5235f5b','01a214d4-1884-71c3-b64f-46de0a4ad75f','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a214d4-18aa-71d7-9ba5-4179c8df4521','01a214d4-1884-71c3-b64f-46de0a4ad75f','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a214d4-18c7-7070-ae59-9d845a63279f','01a214d4-1888-748c-ae8d-c4f15f18a115','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a214d4-18c7-7070-ae59-9d874ee2da62','01a214d4-1888-748c-ae8d-c4f15f18a115','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a214d4-188a-76c2-ab7e-0b5c138f1c99','01a214d4-1884-71c3-b64f-46dd3ad4c1aa','4ec6f53fb2e6c445aca3485458ae0da5d484da1c3fb6af30bb18e8b4afe8afb4','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a214d4-1886-73de-abd2-bb9c7a604870','01a214d4-1884-71c3-b64f-46dd3ad4c1aa','da27ccb6e8b15b3ee6b6dbfe8c102488d321006a363988aa7d67717ca0d93636','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a214d4-1889-76ee-ac76-1d9945fb6249','01a214d4-1888-748c-ae8d-c4f0471eca04','2412173dc810750dacdff1c85e5e0e998262c4bc216f00087cda12cc4ce35698','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a214d4-1884-71c3-b64f-46de0a4ad75f','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a214d4-188a-76c2-ab7e-0b5c138f1c99','01a214d4-188a-76c2-ab7e-0b5c138f1c99',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a214d4-1884-71c3-b64f-46de0a4ad75f','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a214d4-188a-76c2-ab7e-0b5c138f1c99','01a214d4-188a-76c2-ab7e-0b5c138f1c99',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a214d4-18b3-77c7-b71a-dac65114e5f7','01a214d4-1884-71c3-b64f-46de0a4ad75f','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a214d4-18b4-72c2-bf61-04a21267e76e','01a214d4-1884-71c3-b64f-46de0a4ad75f','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a214d4-1886-73de-abd2-bb99a351d7f5"}','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a214d4-18c2-74fa-a061-ce504a778fbc','01a214d4-1888-748c-ae8d-c4f15f18a115','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a214d4-18d3-7142-ad8c-263d584c0a6d','01a214d4-1884-71c3-b64f-46de0a4ad75f','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-1884-71c3-b64f-46dd3ad4c1aa','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a214d4-1884-71c3-b64f-46df397dee30','01a214d4-1884-71c3-b64f-46dd3ad4c1aa','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a214d4-1888-748c-ae8d-c4f15f18a115','01a214d4-1888-748c-ae8d-c4f0471eca04','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a214d4-1888-748c-ae8d-c4f29b57bb34','01a214d4-1888-748c-ae8d-c4f0471eca04','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a214d4-1886-73de-abd2-bb9b0f2986a7','01a214d4-1884-71c3-b64f-46de0a4ad75f','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a');
INSERT INTO "follow_ups" VALUES('01a214d4-1888-748c-ae8d-c4f7285b3c65','01a214d4-1888-748c-ae8d-c4f15f18a115','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a');
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
INSERT INTO "operation_records" VALUES('01a214d4-1886-73de-abd2-bb98b5572681','01a214d4-1886-73de-abd2-bb9706cdfac5','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a214d4-1888-748c-ae8d-c4f453a3f565','01a214d4-1888-748c-ae8d-c4f3c00e0f46','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a214d4-1886-73de-abd2-bb9706cdfac5','01a214d4-1884-71c3-b64f-46de0a4ad75f','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a214d4-1888-748c-ae8d-c4f3c00e0f46','01a214d4-1888-748c-ae8d-c4f15f18a115','2027-03-02T19:00:00.000000Z');
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('on','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('erson','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('1','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('ia','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('76','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('person','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('pia','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('876','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('s1','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('9','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('rson','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('00','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('son','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('009876','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('s','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('09876','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('9876','01a214d4-1884-71c3-b64f-46dd3ad4c1aa');
INSERT INTO "patient_terms" VALUES('er','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('2','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('ther','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('laf','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('76','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('her','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('olaf','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('876','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('9','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('af','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('00','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('009876','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('s','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('s2','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('09876','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('other','01a214d4-1888-748c-ae8d-c4f0471eca04');
INSERT INTO "patient_terms" VALUES('9876','01a214d4-1888-748c-ae8d-c4f0471eca04');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients) STRICT;
INSERT INTO "patients" VALUES('01a214d4-1884-71c3-b64f-46dd3ad4c1aa','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "patients" VALUES('01a214d4-1888-748c-ae8d-c4f0471eca04','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-188a-76c2-ab7e-0b5c138f1c99','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a214d4-1884-71c3-b64f-46de0a4ad75f", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a214d4-18d7-714c-b2ec-0cc4ced45e0b','reviews','94682d816bcc0e77','01a214d4-1882-7770-a236-8f1550797a6a','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL CHECK (role IN ('nurse', 'surgeon')),
            email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        ) STRICT;
INSERT INTO "staff" VALUES('01a214d4-1880-72dc-87a7-98a8a0d0e76a','Nora Nurse','nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$OaW+3svUyZGbF4HuVVV5gw$vb00cMFBeY5k4j4d0m9L1gkRfTn3Oej7FyyRpsC/UH4','2027-03-02T14:00:00.000000Z',NULL);
INSERT INTO "staff" VALUES('01a214d4-1882-7770-a236-8f1550797a6a','Sol Surgeon','surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$+aQoxZRCi360DuQAZ7hfBw$56nS37h4KTNzSatke0rJqZjieM0SguhGXoqsYD0HlG0','2027-03-02T14:00:00.000000Z',NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        ) STRICT;
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a214d4-1886-73de-abd2-bb99a351d7f5','01a214d4-1884-71c3-b64f-46de0a4ad75f','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','2027-03-02T19:00:00.000000Z',NULL,0,'01a214d4-1886-73de-abd2-bb99a351d7f5');
INSERT INTO "visits" VALUES('01a214d4-1886-73de-abd2-bb9a0ba56814','01a214d4-1884-71c3-b64f-46de0a4ad75f','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','2027-03-02T19:00:00.000000Z',NULL,0,'01a214d4-1886-73de-abd2-bb9a0ba56814');
INSERT INTO "visits" VALUES('01a214d4-1888-748c-ae8d-c4f5485f51fa','01a214d4-1888-748c-ae8d-c4f15f18a115','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','2027-03-02T19:00:00.000000Z',NULL,0,'01a214d4-1888-748c-ae8d-c4f5485f51fa');
INSERT INTO "visits" VALUES('01a214d4-1888-748c-ae8d-c4f67895235b','01a214d4-1888-748c-ae8d-c4f15f18a115','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a214d4-1880-72dc-87a7-98a8a0d0e76a','2027-03-02T19:00:00.000000Z',NULL,0,'01a214d4-1888-748c-ae8d-c4f67895235b');
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
INSERT INTO "warnings" VALUES('01a214d4-189d-7180-b425-dbac3069b6c1','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-189d-7180-b425-dbaa63bcb6b9','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-189d-7180-b425-dbaf279e609a','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-189d-7180-b425-dbadb7a6634d','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-189e-7612-bdd4-c058a50cb1ec','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-189e-7612-bdd4-c056da5f95cc','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-189e-7612-bdd4-c05a1c363e97','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-189e-7612-bdd4-c056da5f95cc','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18aa-71d7-9ba5-4175914bdd46','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4173e7f70a98','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18aa-71d7-9ba5-4178c159ddc3','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4176a5235f5b','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18ab-77ef-8b34-09b581d5f343','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4179c8df4521','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18ab-77ef-8b34-09b7ac95c55e','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4176a5235f5b','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18ab-77ef-8b34-09b9da000078','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4179c8df4521','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18ab-77ef-8b34-09bb80228315','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4179c8df4521','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18bb-7640-8bc4-23ddb1580a4c','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4176a5235f5b','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18bb-7640-8bc4-23dff0a7ea31','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4176a5235f5b','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18bc-709c-952b-6cf109feca05','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4176a5235f5b','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18bc-709c-952b-6cf335dbd85b','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4176a5235f5b','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18bc-709c-952b-6cf59abd8720','01a214d4-1884-71c3-b64f-46de0a4ad75f','01a214d4-18aa-71d7-9ba5-4176a5235f5b','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18c7-7070-ae59-9d8659e1bd06','01a214d4-1888-748c-ae8d-c4f15f18a115','01a214d4-18c7-7070-ae59-9d845a63279f','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18c7-7070-ae59-9d89348a7cef','01a214d4-1888-748c-ae8d-c4f15f18a115','01a214d4-18c7-7070-ae59-9d874ee2da62','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a214d4-18c8-7367-84e3-6d2fb02b2c07','01a214d4-1888-748c-ae8d-c4f15f18a115','01a214d4-18c7-7070-ae59-9d874ee2da62','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
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
COMMIT;
