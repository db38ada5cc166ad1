BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 00:33:29.268855+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 00:33:29.286786+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 00:33:29.311606+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 00:33:29.324028+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 00:33:29.330588+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 00:33:29.336803+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 00:33:29.346645+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 00:33:29.377563+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 00:33:29.380978+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 00:33:29.384873+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 00:33:29.411819+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 00:33:29.413398+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 00:33:29.416610+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m029_sessions','2026-11-26 00:33:29.427322+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m030_sealed_facts','2026-11-26 00:33:29.433370+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21545-8d5e-757e-8149-80d1a476a562','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','467361b0050398a2d5a2c3db96cab67d32fc5e29168a960232de8b14ca7c4826','[["staff", "01a21545-8d5e-757e-8149-80d1a476a562", "22462841dd78659686e1362c480f069aac6521710a37830d6f5fa1797119db1b"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21545-8d60-7772-87c2-efacd8f297a7','{"role":"surgeon"}','467361b0050398a2d5a2c3db96cab67d32fc5e29168a960232de8b14ca7c4826','408f5c8ebc9e6542727f8543d895ea6da5e0d191180be8272f8ff50f5b71add1','[["staff", "01a21545-8d60-7772-87c2-efacd8f297a7", "104e1536c64eaad1893a0a1563d8f1db368c4e1d4bea5e82218b99b91cf5d5c1"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','enrolment code','01a21545-8d63-7620-bb28-53684b07248c','null','408f5c8ebc9e6542727f8543d895ea6da5e0d191180be8272f8ff50f5b71add1','fd952da230d05f4b64b03ad8a874aec5213dd8df8e221e8c0c14846009e5a0d2','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','discharge','01a21545-8d63-7620-bb28-53690554ce21','{"agent":"c2f6","eye":"right"}','fd952da230d05f4b64b03ad8a874aec5213dd8df8e221e8c0c14846009e5a0d2','93b27f183b283fb39310720e17c8c7ccdb0bf221ca14d0051d7f31664a6b7184','[["patients", "01a21545-8d63-7620-bb28-53684b07248c", "780a06d4869b98e3cb6dc3bdb9b6b7915d8f26f2adebce7240975d9cef7a06c3"], ["eyes", "01a21545-8d63-7620-bb28-53690554ce21", "43215ab93a3ffdb0ad2e483a2af9df262e836dcb8bf45cd605a807105712d50e"], ["eyes", "01a21545-8d63-7620-bb28-536a4dbf7f51", "5add87a0ce3cfbe89ec312195d71f50a5340b77a4ad97f3a97750d237b0436c8"], ["operations", "01a21545-8d65-7360-aea7-31c3dc710e84", "96e2fb585a7230a8c776b8d731f26760aaea768ae956c0d53afd6986c535689f"], ["operation_records", "01a21545-8d65-7360-aea7-31c49b1db749", "7c627be9c33098ecd4f14b050c9e39ebda7617ec0b599a6a8c26081c3a798e05"], ["visits", "01a21545-8d65-7360-aea7-31c5b3556e7e", "e2bf7dbd9823ca56b848e415e1d3273f94a114918bca6cd6db97a4731bcc4f55"], ["visits", "01a21545-8d65-7360-aea7-31c65ba2eee9", "367bf1118fe215f501008c8b964a72c3cd2559e314b1f8f6ebe3dab2ea541aa1"], ["follow_ups", "01a21545-8d65-7360-aea7-31c7fea29b6d", "1b809b740b12e3b45bc9181a1d806b656a159270f89ad692c4ff9281f77aa5fd"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','enrolment code','01a21545-8d69-72e3-954d-5d51be38a20e','null','93b27f183b283fb39310720e17c8c7ccdb0bf221ca14d0051d7f31664a6b7184','ee4862c985b4c983d802295a44265f966f1d8d97939c3af93a8bcd36d12c191c','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','discharge','01a21545-8d69-72e3-954d-5d52cc3b7f22','{"agent":"silicone-oil","eye":"right"}','ee4862c985b4c983d802295a44265f966f1d8d97939c3af93a8bcd36d12c191c','fd0afcf8a7e60b97c264d6e1e0a4d611fcfa2db162cb403384eece19c90219af','[["patients", "01a21545-8d69-72e3-954d-5d51be38a20e", "200849dc1bfd24b14cef16b31da97cc5188efe7e5b482d1397ea9bc82f44a186"], ["eyes", "01a21545-8d69-72e3-954d-5d52cc3b7f22", "c7d36837e739c3f0e55468ffab38f71c149d31b0c19ec8eb0dc4f2b401540ec0"], ["eyes", "01a21545-8d69-72e3-954d-5d53ae14f396", "4042e23510c56b785dbb7d4ecde966917f6aa22e66e63c547b054b8064eaf8cc"], ["operations", "01a21545-8d6a-74ef-8376-f4315303a69d", "587b4bfbac1e47d1d38b96dceeb7bc3d5135de207ebf6f1c55e585209052e2d5"], ["operation_records", "01a21545-8d6a-74ef-8376-f432bfc26a55", "7edccad4fef3c828fd4daf5de051a81f119cefdd47638a0b3bb57a024f15ce7c"], ["visits", "01a21545-8d6a-74ef-8376-f433a2cea177", "f5dda4bed2e458316a1e320713a5cff4bfb0372780e6e3142820d8ee2b1121d7"], ["visits", "01a21545-8d6a-74ef-8376-f434900b31b1", "36545b5bdc2983fbf3f9f586d5df485fb55d9b321fc24dbb85b0ea38cc33a6d2"], ["follow_ups", "01a21545-8d6a-74ef-8376-f435289209be", "96abd32902f86579083f520033ac7203778b0df9d615cea0db3d4d05d375ee04"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a21545-8d6b-7583-8ae7-bb2d9eb143df','device enrolled','01a21545-8d63-7620-bb28-53684b07248c','null','fd0afcf8a7e60b97c264d6e1e0a4d611fcfa2db162cb403384eece19c90219af','863265df1e9e910a07bab3d22b15234ae815bc0bb3c2a8682bcb8ba0f1b485bb','[["devices", "01a21545-8d6b-7583-8ae7-bb2d9eb143df", "979b8385972a40c60e7594352a4780e46e593545719199435d92beca5f89769f"]]');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a21545-8d6b-7583-8ae7-bb2d9eb143df','event posture','01a21545-8d63-7620-bb28-53690554ce21','{"id":"0195e5a0-0000-7000-8000-000000000001"}','863265df1e9e910a07bab3d22b15234ae815bc0bb3c2a8682bcb8ba0f1b485bb','dc120492f6f3e85d65870ad0772c1b0cfb163957cd689dfe33cedafe28a6bfa0','');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"today","rule":"missed-early-visit"}','dc120492f6f3e85d65870ad0772c1b0cfb163957cd689dfe33cedafe28a6bfa0','a08656821af1a197dd19b93da270ed1286a70f0c9da129dc30bf8ff3a68000fe','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"this-week","rule":"posture-missed"}','a08656821af1a197dd19b93da270ed1286a70f0c9da129dc30bf8ff3a68000fe','e2e3643a75016120f94b07febaf1c11ee83d05ca5b8243c06d0811c9d8825ecd','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"this-week","rule":"silent-while-posturing"}','e2e3643a75016120f94b07febaf1c11ee83d05ca5b8243c06d0811c9d8825ecd','e6781dfc5c93f22665d6d421ea047242a15dd32f057047e41127f52e0bc4dbbd','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"this-week","rule":"no-posture-entry"}','e6781dfc5c93f22665d6d421ea047242a15dd32f057047e41127f52e0bc4dbbd','6e15176b3879cdcbe56c78e0c0e2c798dd67b604cbe496ae1c1410fe3481f912','[["events", "0195e5a0-0000-7000-8000-000000000001", "70c6415bf2a61dc9e19f57564512a7f6fe62f11dc06819a751c6a6aca7fb59f6"], ["callbacks", "01a21545-8d81-72d2-9927-976aa1691ccf", "c86bbeb082c774e78f62fce5d956e65b600c94710e912862aa73d4c14dc66116"], ["callback_steps", "01a21545-8d81-72d2-9927-976b2c578bbe", "a54ff31f50c51e655299ba0cf5b3035a51c83dbc796cdd3980aa544e21a81b4e"], ["warnings", "01a21545-8d81-72d2-9927-976c9e911dcf", "2ebc9f505164ccc4b92cc639cdc47fcd612a0df7f71b53d4c729cb315f91adf0"], ["callbacks", "01a21545-8d81-72d2-9927-976dddd551c2", "22655e7f00c629b0d261e8af0c04a45833d3bb4936b2dcaebdb2912fbf3e5f86"], ["callback_steps", "01a21545-8d81-72d2-9927-976e44697c79", "c76c690a8f21bee5dcdaaf45feb629298b918348087a9255beff4c6b63145b77"], ["warnings", "01a21545-8d81-72d2-9927-976f852caf06", "7bc7232207d6fccd1112142fff618601eff6390f0b43aa7371f1437da7862303"], ["callbacks", "01a21545-8d82-755a-ab69-6a54c85fc4ec", "e6b6abc74dbef26b0d420bd40a0990051b1f6902f2f98555cf3e7a35f9d645dc"], ["callback_steps", "01a21545-8d82-755a-ab69-6a5559093e7a", "9c66ffc50ee4e378d526704a11c767f5a1039be6e542920a247dc50c2eb4157a"], ["warnings", "01a21545-8d82-755a-ab69-6a5698399185", "ce07b29bc8b80708168c6a85097c05cd5cca19df5bb5ea32bbb859ac840ecb0b"], ["callback_steps", "01a21545-8d82-755a-ab69-6a57fd875d20", "7be882ff6e32bddb9b58f3a5ef16413cce061ffecca7a8845d76e2b8346f7ea5"], ["warnings", "01a21545-8d82-755a-ab69-6a584529721c", "f91795294f01b02d3d75613f19565adc4305b26f3d99e2043dc05cb3c32115db"]]');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a21545-8d6b-7583-8ae7-bb2d9eb143df','event symptoms','01a21545-8d63-7620-bb28-53690554ce21','{"id":"0195e5a0-0000-7000-8000-000000000002"}','6e15176b3879cdcbe56c78e0c0e2c798dd67b604cbe496ae1c1410fe3481f912','9b68974b796a02f4e562588b9b573dc3ebee62c501bd3a1b961c22592c23352a','');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"now","rule":"infection-suspected"}','9b68974b796a02f4e562588b9b573dc3ebee62c501bd3a1b961c22592c23352a','504672327351c014aa67457b47e9130f43269cc88e3d11b5b7133eb4bbc8eab2','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"now","rule":"severe-pain"}','504672327351c014aa67457b47e9130f43269cc88e3d11b5b7133eb4bbc8eab2','95050cde614f6245581b37ca99efa75c4ea9b29c79c4b850edec00f612e1a494','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"today","rule":"curtain"}','95050cde614f6245581b37ca99efa75c4ea9b29c79c4b850edec00f612e1a494','ce65cb5849d86876b034e82be25f85bbd85d24db8392e4f0084a345b221892b1','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"today","rule":"pain"}','ce65cb5849d86876b034e82be25f85bbd85d24db8392e4f0084a345b221892b1','a7765d5b4217fe8a5ad01ca33213c123a4747b8dcb203d3b9f086b3e8f7f5bf0','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"today","rule":"vision-worse"}','a7765d5b4217fe8a5ad01ca33213c123a4747b8dcb203d3b9f086b3e8f7f5bf0','99021918b1f9080d90c96cf0601eb871ef5116104037c12d7a714bf257131cc1','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"this-week","rule":"vision-said-worse"}','99021918b1f9080d90c96cf0601eb871ef5116104037c12d7a714bf257131cc1','29a8c7a0314ac980ef704e4b77cb33381974093659612ddde27663ac22513410','[["events", "0195e5a0-0000-7000-8000-000000000002", "c547aaa2282ee94335a68273582de6139b06ad3a3db28a79fe2f01c10741abe2"], ["callbacks", "01a21545-8d92-72fa-a59e-7cd8a6aca3f0", "371e70f906eb01516206ee2d26ce3c8e6e4efb01e6ac812d3c8e9163395a67f2"], ["callback_steps", "01a21545-8d92-72fa-a59e-7cd92eb10f16", "ab5d6aa90245cba3cc4562ec3f25d64ad3db74f0fa51491511695f95034a8b00"], ["warnings", "01a21545-8d92-72fa-a59e-7cda718dc6e6", "03e6e702b740d2dc147cfa57626ab97cfe80758ec226cc42a37c4474189d986b"], ["callbacks", "01a21545-8d92-72fa-a59e-7cdbf241ff63", "df1cdc0dabe178f3d4eb4611d741060ffc75bb713f47b52aff2167e41af3698c"], ["callback_steps", "01a21545-8d92-72fa-a59e-7cdc2462b221", "4834d0da33e86a1b17875344438d4fe85694efad5edfe4e9929bd317e418d4d9"], ["warnings", "01a21545-8d92-72fa-a59e-7cdd61c6e32d", "5b83a9293334619bb59be018d1e5b5a0c6ea4e2f01c8343618900cc565a33cf4"], ["callbacks", "01a21545-8d92-72fa-a59e-7cde570e2150", "f884dec0a6136feab3f58796833d4fee3f47a58bad6b60b2d335191172df1c50"], ["callback_steps", "01a21545-8d92-72fa-a59e-7cdf2de541a9", "a7ec2bffb7699a2e59948a5d6883232d7696d280624b9498df5d9fa901ef2b65"], ["warnings", "01a21545-8d92-72fa-a59e-7ce00cbf5b04", "111d31a31f6a4ee5e804e94bfb47e7520b2b92f6794c9155da30c417320e052f"], ["callback_steps", "01a21545-8d92-72fa-a59e-7ce1f7940329", "105d7dc28a333bfa5096f413fbdb973490befa0bc735c7f02c3e0230eb7d4bc8"], ["warnings", "01a21545-8d92-72fa-a59e-7ce2f193070e", "6841e4486a5fa9a01360f6d5eda2c5c5a288cae4ccbcdbaa647a3a436f934582"], ["callback_steps", "01a21545-8d93-7149-ac0f-255bc5be1103", "a206256c3bd58ab4def392dadbeac1db2b5a43da743470fb8677ef961cf60a97"], ["warnings", "01a21545-8d93-7149-ac0f-255c568ff5af", "c871a2903bb561f0b59ae6c74314d43bfbc3dbf811569690fe57b0fc9ec12605"], ["callback_steps", "01a21545-8d93-7149-ac0f-255d11620489", "5a188b6926269a836a8eae43686a580109e6b6a99f0267f9a4bf8bfa308d7c67"], ["warnings", "01a21545-8d93-7149-ac0f-255e6bd648a7", "18e12578b8415c5eba579de216237e11267d6e61dd3f0f4503121b4368993d74"]]');
INSERT INTO "audit" VALUES(20,'2026-11-26T00:33:29.497180Z','followup','recorded','refused_events','null','29a8c7a0314ac980ef704e4b77cb33381974093659612ddde27663ac22513410','d8e621c733c410b4ab40f6b6dead2b48f0732ea60edf12d8c911864412d5b025','[["refused_events", "b56f567ae8f9b96394382400afacb4842a84eb51dc39163245ba363f4dc04120", "d8c446dadb7e3d5fd3da7832543e9a371376f4d06999ca0b78bb5ca98dda0035"]]');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','event measures','01a21545-8d63-7620-bb28-53690554ce21','{"id":"01a21545-8d9d-73c0-9edc-8bc75523725e"}','d8e621c733c410b4ab40f6b6dead2b48f0732ea60edf12d8c911864412d5b025','54ed7f50a0e77c39880e6eaeeee62ff30089699835e9fc85bfae20d0c3f67476','');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','event seen','01a21545-8d63-7620-bb28-53690554ce21','{"id":"01a21545-8d9e-7393-9103-e0618c348468"}','54ed7f50a0e77c39880e6eaeeee62ff30089699835e9fc85bfae20d0c3f67476','9879e69bdde41068609112d29b73f9b4b2aa0c2369869e81c2c2f95184f40266','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"now","rule":"pressure-severe"}','9879e69bdde41068609112d29b73f9b4b2aa0c2369869e81c2c2f95184f40266','06ac0e9b9196d9eaa2bab03092a834aacab29c663e62ac190fe0a10b463665c7','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"today","rule":"pressure-spike"}','06ac0e9b9196d9eaa2bab03092a834aacab29c663e62ac190fe0a10b463665c7','b201e12b33ca76aaa55551e87a782fca605427192867e47efd2e8881b99757a8','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"this-week","rule":"pressure-raised"}','b201e12b33ca76aaa55551e87a782fca605427192867e47efd2e8881b99757a8','21b30e944e458a512d7d875f043b0f2a6a02e015f4395378dcbf84882a96e0e5','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"this-week","rule":"pressure-rise"}','21b30e944e458a512d7d875f043b0f2a6a02e015f4395378dcbf84882a96e0e5','cd99ed7372476bc8cd679a98fa6b42e0ee711c5762c0c84d6de96d5368ff4980','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d63-7620-bb28-53690554ce21','{"how_soon":"this-week","rule":"pressure-rising"}','cd99ed7372476bc8cd679a98fa6b42e0ee711c5762c0c84d6de96d5368ff4980','8c133e8c77b041e8c18e2dfb81d983a40cb02e758e37aebc8b4d2aacc86f8976','[["events", "01a21545-8d9d-73c0-9edc-8bc75523725e", "72768cbdb41f3dafbe35296869a7ceb83005ef93abe8cfc9588c0660f8d5e9d5"], ["events", "01a21545-8d9e-7393-9103-e0618c348468", "cafcd5ca3bd9415f4291ce3223f09229ad760593d6e1ae5a45fdae551c6f9680"], ["callback_steps", "01a21545-8da6-712d-8e23-dd5a019d7fa4", "e088ef2b2ff68b754a6ab8765db746b7edaebfb20bbdb5b026de328699f55347"], ["warnings", "01a21545-8da6-712d-8e23-dd5b584da55d", "6f09645aecebfd841df14011a15f2eca61734f0168c59862bdfd14de9835e980"], ["callback_steps", "01a21545-8da6-712d-8e23-dd5c7acfa3ff", "85b767cbe671fc480cba298141ee1fb2d118cc637c1d0204c9ecce30ffbaa74a"], ["warnings", "01a21545-8da6-712d-8e23-dd5d6c0ac665", "9eb27fbfc63f72662c6cdcfe26f788388a7b46c42aafda1f80092727b66cf6a5"], ["callback_steps", "01a21545-8da6-712d-8e23-dd5eadba43d3", "ade0d885e704368a645a1c52dee6f6427caf99cbde111c8d394aa3a366912631"], ["warnings", "01a21545-8da6-712d-8e23-dd5f97ebac92", "970577a9412a5bf9795d3deb7cafb28450b3fd9457d5fc89814700142b4b667e"], ["callback_steps", "01a21545-8da6-712d-8e23-dd6078b79f69", "91c7c21bbee74afd765bbb42bdc2931a7d303839ecf8de2ab26e556b160a48ca"], ["warnings", "01a21545-8da6-712d-8e23-dd619094a0df", "211b0d1331d6b79f7bceda813d2260bf13406b6cffdef4756f74972f633ef4ae"], ["callback_steps", "01a21545-8da6-712d-8e23-dd62acf5512f", "363c17f3faa5b7e3686c16c8e3be11817128eb2546a0e796c2ec51e750ce8d11"], ["warnings", "01a21545-8da6-712d-8e23-dd63eecc32f7", "fcee203e1ca2cea843b7234817ae126924e2bc59c787f9c4998bca4e30d4ed58"]]');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','event measures','01a21545-8d69-72e3-954d-5d52cc3b7f22','{"id":"01a21545-8db9-71f0-90ef-9c55babc2dd9"}','8c133e8c77b041e8c18e2dfb81d983a40cb02e758e37aebc8b4d2aacc86f8976','1a2405e47b70d518dc85c836cc3d77af25779e7c9a8c85007c0350f9161b68e4','');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d69-72e3-954d-5d52cc3b7f22','{"how_soon":"today","rule":"missed-early-visit"}','1a2405e47b70d518dc85c836cc3d77af25779e7c9a8c85007c0350f9161b68e4','6d5477f549dff2e5221cd365333e90ae93481b6eadb6735bc0661cfdae10e0dc','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d69-72e3-954d-5d52cc3b7f22','{"how_soon":"this-week","rule":"no-posture-entry"}','6d5477f549dff2e5221cd365333e90ae93481b6eadb6735bc0661cfdae10e0dc','be75e676431094f33f7b3452dd24fa13ca1e992e327aa356a800b594926391db','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21545-8d69-72e3-954d-5d52cc3b7f22','{"how_soon":"this-week","rule":"silent-while-posturing"}','be75e676431094f33f7b3452dd24fa13ca1e992e327aa356a800b594926391db','993e351119b84f70739989911917f57902af7f3806f6357f7a6c1771e1947881','[["events", "01a21545-8db9-71f0-90ef-9c55babc2dd9", "99fc86642d17b9dd04bd932906e23bd5e33eadc64b7d13d896cd0eb7de73c94b"], ["callbacks", "01a21545-8dbe-71b4-84e3-7aea50d7db4e", "9a683933c7c1615ef27aed329bf6141552cac62cfe160c3da161f98b5e29f6b2"], ["callback_steps", "01a21545-8dbe-71b4-84e3-7aeb5487feef", "f918cf7f89e8444985755cec2455d1e7c066fb6b35ceed6bfda9a67459fda550"], ["warnings", "01a21545-8dbe-71b4-84e3-7aecaa0e963f", "0341f29fee8c13bb1093de2c9b972428cfee5f138e3d49719f36e3d202aac6b8"], ["callbacks", "01a21545-8dbe-71b4-84e3-7aed3311ba31", "cb0bb817a3656e49a3af272f86f885fd5985d40a935be894a2a3e7eb5abed380"], ["callback_steps", "01a21545-8dbe-71b4-84e3-7aee469b98e9", "aa4326dc0676314849584161baa2be7f3a55554ef507620c113ca85e839c37da"], ["warnings", "01a21545-8dbe-71b4-84e3-7aef1c2883af", "883f8b855899f93f54f563d4f51ad2075ca37b63085e0a456f9c0a6146feb1ba"], ["callback_steps", "01a21545-8dbe-71b4-84e3-7af0ec967441", "5df90726e3c4d0ac6c5297d7f6432a5bbdca629d231268502d935ddeb9e6bd8c"], ["warnings", "01a21545-8dbe-71b4-84e3-7af19f31d67f", "5805562774c53ff62456ba3432bf36cc3299b06ce18687fd5cd32a0e86a891d8"]]');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','callback claimed','01a21545-8d92-72fa-a59e-7cd8a6aca3f0','null','993e351119b84f70739989911917f57902af7f3806f6357f7a6c1771e1947881','10f114cda6cdb919191ac0bbdc77e6c7c3355dde2e96ed1ce057bc48952ee431','[["callbacks", "01a21545-8d92-72fa-a59e-7cd8a6aca3f0", "38976e6bdc15a3c8c811f99e5b1fcd702aaa39dbc0b594afe7470646e4e9b536"], ["callback_steps", "01a21545-8dcd-719e-8e97-955ba90ec008", "27ee4dd8fd7331cef9e45070921cd06c9350acbe40fdb3e2618970b754d692d3"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','callback attempt','01a21545-8d92-72fa-a59e-7cd8a6aca3f0','{"reached":true}','10f114cda6cdb919191ac0bbdc77e6c7c3355dde2e96ed1ce057bc48952ee431','867ef1ebd3fea96c1fd5a811f8b93f895b0917b1f0bf8cc93936f8db1ed65e9d','[["callback_steps", "01a21545-8dd0-76f0-b330-d6ce4cd7bdbf", "412006415ca9999f3c4e8aa10b032abff80f50921e478d70396e276f55b3c389"], ["events", "01a21545-8dd0-76f0-b330-d6cfc5b776ee", "59d434c10e6a14137611420af86623c9ea883d63b42256e416495d098be251fe"], ["callbacks", "01a21545-8d92-72fa-a59e-7cd8a6aca3f0", "38976e6bdc15a3c8c811f99e5b1fcd702aaa39dbc0b594afe7470646e4e9b536"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','callback settled','01a21545-8d92-72fa-a59e-7cd8a6aca3f0','{"outcome":"advice"}','867ef1ebd3fea96c1fd5a811f8b93f895b0917b1f0bf8cc93936f8db1ed65e9d','3a743b78ff669c88bf5ee568a945a04c39430b3240891053494a72fb26f97c94','[["callbacks", "01a21545-8d92-72fa-a59e-7cd8a6aca3f0", "c6ec0ca84ac71c48f67e033ae863e5ba3ca04186ced5f59cae4a763e3384d774"], ["callback_steps", "01a21545-8dd4-739d-9a24-c2ce7191cfb9", "dfc033bf766aef48d22a515fbeacb284606601c8d8e5c7ab73718dc56cf1f927"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','surgeon:01a21545-8d60-7772-87c2-efacd8f297a7','protocol signed','reviews','{"fingerprint":"94682d816bcc0e77"}','3a743b78ff669c88bf5ee568a945a04c39430b3240891053494a72fb26f97c94','22bd11fed7b83ba5d0d14ea04bf6353b58e65aae2afd2b9ced996d92a01702a2','[["signatures", "01a21545-8dd7-7001-b4b1-7f16b3f61064", "76fe1818838d78065e7c57799d2f04c6f49dce127a1a6053b1f33e0d326d5f1e"]]');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21545-8d81-72d2-9927-976b2c578bbe','01a21545-8d81-72d2-9927-976aa1691ccf','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21545-8d81-72d2-9927-976e44697c79','01a21545-8d81-72d2-9927-976dddd551c2','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21545-8d82-755a-ab69-6a5559093e7a','01a21545-8d82-755a-ab69-6a54c85fc4ec','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21545-8d82-755a-ab69-6a57fd875d20','01a21545-8d82-755a-ab69-6a54c85fc4ec','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21545-8d92-72fa-a59e-7cd92eb10f16','01a21545-8d92-72fa-a59e-7cd8a6aca3f0','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21545-8d92-72fa-a59e-7cdc2462b221','01a21545-8d92-72fa-a59e-7cdbf241ff63','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21545-8d92-72fa-a59e-7cdf2de541a9','01a21545-8d92-72fa-a59e-7cde570e2150','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21545-8d92-72fa-a59e-7ce1f7940329','01a21545-8d92-72fa-a59e-7cdbf241ff63','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21545-8d93-7149-ac0f-255bc5be1103','01a21545-8d92-72fa-a59e-7cde570e2150','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21545-8d93-7149-ac0f-255d11620489','01a21545-8d92-72fa-a59e-7cde570e2150','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a21545-8da6-712d-8e23-dd5a019d7fa4','01a21545-8d92-72fa-a59e-7cdbf241ff63','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21545-8da6-712d-8e23-dd5c7acfa3ff','01a21545-8d92-72fa-a59e-7cdbf241ff63','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21545-8da6-712d-8e23-dd5eadba43d3','01a21545-8d92-72fa-a59e-7cdbf241ff63','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21545-8da6-712d-8e23-dd6078b79f69','01a21545-8d92-72fa-a59e-7cdbf241ff63','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21545-8da6-712d-8e23-dd62acf5512f','01a21545-8d92-72fa-a59e-7cdbf241ff63','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a21545-8dbe-71b4-84e3-7aeb5487feef','01a21545-8dbe-71b4-84e3-7aea50d7db4e','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21545-8dbe-71b4-84e3-7aee469b98e9','01a21545-8dbe-71b4-84e3-7aed3311ba31','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21545-8dbe-71b4-84e3-7af0ec967441','01a21545-8dbe-71b4-84e3-7aed3311ba31','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21545-8dcd-719e-8e97-955ba90ec008','01a21545-8d92-72fa-a59e-7cd8a6aca3f0','2027-03-05T10:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21545-8dd0-76f0-b330-d6ce4cd7bdbf','01a21545-8d92-72fa-a59e-7cd8a6aca3f0','2027-03-05T10:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21545-8dd4-739d-9a24-c2ce7191cfb9','01a21545-8d92-72fa-a59e-7cd8a6aca3f0','2027-03-05T10:00:00.000000Z','nurse:01a21545-8d5e-757e-8149-80d1a476a562','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21545-8d81-72d2-9927-976aa1691ccf','01a21545-8d63-7620-bb28-53690554ce21','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21545-8d81-72d2-9927-976dddd551c2','01a21545-8d63-7620-bb28-53690554ce21','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21545-8d82-755a-ab69-6a54c85fc4ec','01a21545-8d63-7620-bb28-53690554ce21','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21545-8d92-72fa-a59e-7cd8a6aca3f0','01a21545-8d63-7620-bb28-53690554ce21','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a21545-8d5e-757e-8149-80d1a476a562','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a21545-8d5e-757e-8149-80d1a476a562',NULL,0);
INSERT INTO "callbacks" VALUES('01a21545-8d92-72fa-a59e-7cdbf241ff63','01a21545-8d63-7620-bb28-53690554ce21','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21545-8d92-72fa-a59e-7cde570e2150','01a21545-8d63-7620-bb28-53690554ce21','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21545-8dbe-71b4-84e3-7aea50d7db4e','01a21545-8d69-72e3-954d-5d52cc3b7f22','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21545-8dbe-71b4-84e3-7aed3311ba31','01a21545-8d69-72e3-954d-5d52cc3b7f22','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a21545-8d6b-7583-8ae7-bb2d9eb143df','01a21545-8d63-7620-bb28-53684b07248c','f8a47115fc9ee0152d8313dd19669e4a13aa59312bf11e37a188127bd581a0ee','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a21545-8d65-7360-aea7-31c8dd3a748b','01a21545-8d63-7620-bb28-53684b07248c','6516435beb120581b6b71437b94af48452af4c9e4febde925d5c9cc53f2c2646','nurse:01a21545-8d5e-757e-8149-80d1a476a562','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a21545-8d6a-74ef-8376-f43608c607ef','01a21545-8d69-72e3-954d-5d51be38a20e','1c6b9d11e1a51d71a473bd73cb2669b1fb55765391d7b937d7c7c33655698b43','nurse:01a21545-8d5e-757e-8149-80d1a476a562','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21545-8d63-7620-bb28-53690554ce21','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21545-8d6b-7583-8ae7-bb2d9eb143df','01a21545-8d6b-7583-8ae7-bb2d9eb143df',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21545-8d63-7620-bb28-53690554ce21','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21545-8d6b-7583-8ae7-bb2d9eb143df','01a21545-8d6b-7583-8ae7-bb2d9eb143df',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21545-8d9d-73c0-9edc-8bc75523725e','01a21545-8d63-7620-bb28-53690554ce21','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21545-8d5e-757e-8149-80d1a476a562',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21545-8d9e-7393-9103-e0618c348468','01a21545-8d63-7620-bb28-53690554ce21','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21545-8d65-7360-aea7-31c5b3556e7e"}','nurse:01a21545-8d5e-757e-8149-80d1a476a562',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21545-8db9-71f0-90ef-9c55babc2dd9','01a21545-8d69-72e3-954d-5d52cc3b7f22','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21545-8d5e-757e-8149-80d1a476a562',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21545-8dd0-76f0-b330-d6cfc5b776ee','01a21545-8d63-7620-bb28-53690554ce21','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21545-8d5e-757e-8149-80d1a476a562',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d63-7620-bb28-53684b07248c','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21545-8d63-7620-bb28-536a4dbf7f51','01a21545-8d63-7620-bb28-53684b07248c','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21545-8d69-72e3-954d-5d52cc3b7f22','01a21545-8d69-72e3-954d-5d51be38a20e','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21545-8d69-72e3-954d-5d53ae14f396','01a21545-8d69-72e3-954d-5d51be38a20e','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21545-8d65-7360-aea7-31c7fea29b6d','01a21545-8d63-7620-bb28-53690554ce21','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21545-8d5e-757e-8149-80d1a476a562');
INSERT INTO "follow_ups" VALUES('01a21545-8d6a-74ef-8376-f435289209be','01a21545-8d69-72e3-954d-5d52cc3b7f22','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21545-8d5e-757e-8149-80d1a476a562');
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
INSERT INTO "operation_records" VALUES('01a21545-8d65-7360-aea7-31c49b1db749','01a21545-8d65-7360-aea7-31c3dc710e84','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21545-8d5e-757e-8149-80d1a476a562','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21545-8d6a-74ef-8376-f432bfc26a55','01a21545-8d6a-74ef-8376-f4315303a69d','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21545-8d5e-757e-8149-80d1a476a562','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21545-8d65-7360-aea7-31c3dc710e84','01a21545-8d63-7620-bb28-53690554ce21','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21545-8d6a-74ef-8376-f4315303a69d','01a21545-8d69-72e3-954d-5d52cc3b7f22','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('1','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('person','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('son','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('00','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('009876','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('erson','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('ia','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('pia','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('s1','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('rson','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('876','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('on','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('9876','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('9','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('76','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('09876','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('s','01a21545-8d63-7620-bb28-53684b07248c');
INSERT INTO "patient_terms" VALUES('olaf','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('2','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('00','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('009876','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('ther','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('er','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('876','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('9876','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('s2','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('laf','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('af','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('9','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('other','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('her','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('76','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('09876','01a21545-8d69-72e3-954d-5d51be38a20e');
INSERT INTO "patient_terms" VALUES('s','01a21545-8d69-72e3-954d-5d51be38a20e');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients) STRICT;
INSERT INTO "patients" VALUES('01a21545-8d63-7620-bb28-53684b07248c','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
INSERT INTO "patients" VALUES('01a21545-8d69-72e3-954d-5d51be38a20e','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL);
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE push_subscriptions (
            endpoint TEXT PRIMARY KEY, person TEXT NOT NULL, device_id TEXT REFERENCES devices, p256dh TEXT NOT NULL,
            auth TEXT NOT NULL, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
CREATE TABLE recovery_codes (
            staff_id TEXT NOT NULL REFERENCES staff, code_hash TEXT NOT NULL, used_at TEXT, PRIMARY KEY (staff_id, code_hash)
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, eye_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d6b-7583-8ae7-bb2d9eb143df','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21545-8d63-7620-bb28-53690554ce21", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21545-8dd7-7001-b4b1-7f16b3f61064','reviews','94682d816bcc0e77','01a21545-8d60-7772-87c2-efacd8f297a7','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER) STRICT;
INSERT INTO "staff" VALUES('01a21545-8d5e-757e-8149-80d1a476a562','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$5aBuncLVAY4qpLAvu10Ahg$9G1I/ZqMF38n5kTC+KjsXwm3Y/9R1Lohj/U6iSzCS1E','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL);
INSERT INTO "staff" VALUES('01a21545-8d60-7772-87c2-efacd8f297a7','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$BXkcDqg03QPpXy9cxlU6vA$o4MAEXK7Yj5M7tAxvrMRhrcrsP/u5S+ODtGw+lT1bFg','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL);
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
INSERT INTO "visits" VALUES('01a21545-8d65-7360-aea7-31c5b3556e7e','01a21545-8d63-7620-bb28-53690554ce21','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21545-8d5e-757e-8149-80d1a476a562','2027-03-02T19:00:00.000000Z',NULL,0,'01a21545-8d65-7360-aea7-31c5b3556e7e');
INSERT INTO "visits" VALUES('01a21545-8d65-7360-aea7-31c65ba2eee9','01a21545-8d63-7620-bb28-53690554ce21','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21545-8d5e-757e-8149-80d1a476a562','2027-03-02T19:00:00.000000Z',NULL,0,'01a21545-8d65-7360-aea7-31c65ba2eee9');
INSERT INTO "visits" VALUES('01a21545-8d6a-74ef-8376-f433a2cea177','01a21545-8d69-72e3-954d-5d52cc3b7f22','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21545-8d5e-757e-8149-80d1a476a562','2027-03-02T19:00:00.000000Z',NULL,0,'01a21545-8d6a-74ef-8376-f433a2cea177');
INSERT INTO "visits" VALUES('01a21545-8d6a-74ef-8376-f434900b31b1','01a21545-8d69-72e3-954d-5d52cc3b7f22','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21545-8d5e-757e-8149-80d1a476a562','2027-03-02T19:00:00.000000Z',NULL,0,'01a21545-8d6a-74ef-8376-f434900b31b1');
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
INSERT INTO "warnings" VALUES('01a21545-8d81-72d2-9927-976c9e911dcf','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d81-72d2-9927-976aa1691ccf','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8d81-72d2-9927-976f852caf06','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d81-72d2-9927-976dddd551c2','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8d82-755a-ab69-6a5698399185','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d82-755a-ab69-6a54c85fc4ec','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8d82-755a-ab69-6a584529721c','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d82-755a-ab69-6a54c85fc4ec','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8d92-72fa-a59e-7cda718dc6e6','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cd8a6aca3f0','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8d92-72fa-a59e-7cdd61c6e32d','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cdbf241ff63','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8d92-72fa-a59e-7ce00cbf5b04','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cde570e2150','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8d92-72fa-a59e-7ce2f193070e','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cdbf241ff63','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8d93-7149-ac0f-255c568ff5af','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cde570e2150','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8d93-7149-ac0f-255e6bd648a7','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cde570e2150','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8da6-712d-8e23-dd5b584da55d','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cdbf241ff63','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8da6-712d-8e23-dd5d6c0ac665','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cdbf241ff63','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8da6-712d-8e23-dd5f97ebac92','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cdbf241ff63','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8da6-712d-8e23-dd619094a0df','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cdbf241ff63','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8da6-712d-8e23-dd63eecc32f7','01a21545-8d63-7620-bb28-53690554ce21','01a21545-8d92-72fa-a59e-7cdbf241ff63','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8dbe-71b4-84e3-7aecaa0e963f','01a21545-8d69-72e3-954d-5d52cc3b7f22','01a21545-8dbe-71b4-84e3-7aea50d7db4e','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8dbe-71b4-84e3-7aef1c2883af','01a21545-8d69-72e3-954d-5d52cc3b7f22','01a21545-8dbe-71b4-84e3-7aed3311ba31','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21545-8dbe-71b4-84e3-7af19f31d67f','01a21545-8d69-72e3-954d-5d52cc3b7f22','01a21545-8dbe-71b4-84e3-7aed3311ba31','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','aa96299d226fca7c','2027-03-05T10:00:00.000000Z');
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
CREATE INDEX sessions_of_staff ON sessions (staff_id, ended_at);
CREATE INDEX pages_opened_by_time ON pages_opened (at);
CREATE INDEX pages_opened_about ON pages_opened (about, at);
CREATE TRIGGER pages_opened_keeps_update BEFORE UPDATE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE TRIGGER pages_opened_keeps_delete BEFORE DELETE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
COMMIT;
