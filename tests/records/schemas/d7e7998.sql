BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 04:20:31.264237+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 04:20:31.269626+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 04:20:31.278946+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 04:20:31.289638+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 04:20:31.292193+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 04:20:31.308606+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 04:20:31.314141+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 04:20:31.325672+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 04:20:31.333105+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 04:20:31.336239+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 04:20:31.432421+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 04:20:31.437530+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 04:20:31.448577+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 04:20:31.454682+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 04:20:31.472800+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'followup','m028_current_state','2026-11-26 04:20:31.487832+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'followup','m029_sessions','2026-11-26 04:20:31.533977+00:00');
INSERT INTO "_sqlite_migrations" VALUES(18,'followup','m030_sealed_facts','2026-11-26 04:20:31.537817+00:00');
INSERT INTO "_sqlite_migrations" VALUES(19,'followup','m032_rights','2026-11-26 04:20:31.544913+00:00');
INSERT INTO "_sqlite_migrations" VALUES(20,'followup','m031_carers_and_drops','2026-11-26 04:20:31.554667+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21615-68ca-74ef-8db2-f27e57652e16','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','a53b73dbf3b9ad796aa7653f48bf0d11504858b390ec018da35c16f53f735cf7','[["staff", "01a21615-68ca-74ef-8db2-f27e57652e16", "fefda72f674d9beb42ec492be10152302e32feb4dc62712c50bec1135be121e5"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21615-68d4-7119-a7e7-1d96377c7134','{"role":"surgeon"}','a53b73dbf3b9ad796aa7653f48bf0d11504858b390ec018da35c16f53f735cf7','3e64a9d6f2060eea8f6081554fd782d8205bb5781a8f0a95dd736d163e0f930f','[["staff", "01a21615-68d4-7119-a7e7-1d96377c7134", "35333f57c0d0acea901b75ac6e78e44b57fee7abb5977774dbf85eedad3c51ad"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','enrolment code','01a21615-68d9-77c9-a5c1-cf13d676d2ce','null','3e64a9d6f2060eea8f6081554fd782d8205bb5781a8f0a95dd736d163e0f930f','a83ffe07635037fd7261603807e16e5847b66ebb5009951e41d87df3ac41bbd5','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','discharge','01a21615-68d9-77c9-a5c1-cf143177336c','{"agent":"c2f6","eye":"right"}','a83ffe07635037fd7261603807e16e5847b66ebb5009951e41d87df3ac41bbd5','251273bbd7d608c86a426313a336b23cc6df88fce038186884a859630d515eb9','[["patients", "01a21615-68d9-77c9-a5c1-cf13d676d2ce", "7f283d73b34d420c7e8caf0e26ed4ec90562c35ed4fa14ff535d8506b7963f42"], ["eyes", "01a21615-68d9-77c9-a5c1-cf143177336c", "d872687beb4ebbdb4c12edcdf9c0cd894138380cee1c9cff5b319764d881ed87"], ["eyes", "01a21615-68da-7281-b98a-a12b54faed06", "58098084c3360e6b1014dc90f6ef0be6d223d1cc8ac3b3eb876e7e52300766bb"], ["operations", "01a21615-68dc-763b-940d-2491cbef089a", "e4104989fdfe35d9d772a03fa07242a6f579ab213b16b7c4e396361158c98c03"], ["operation_records", "01a21615-68dc-763b-940d-2492e0738a5f", "e498bc1917a8a91f41fa43632bbe158a2dc272c912faefe05c50cd2298be7041"], ["visits", "01a21615-68e0-726f-9819-9ff634196749", "58bbe52a05e3ff8a1e2041d4bddee5fb6bf9b61af8f8dcbd8e7c568559bc34a1"], ["visits", "01a21615-68e0-726f-9819-9ff7f903b7be", "642071f27819c00f1ceff58db9e3bd0e62e3bb878bc7c933b02fa28d0b586e4c"], ["follow_ups", "01a21615-68e0-726f-9819-9ff86653a91e", "5f79d2149d529af66388034a1fe13f2caca47f7808fcf69708ee39e4eefe27f6"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','enrolment code','01a21615-68e9-75cb-bae5-a36f903bf43c','null','251273bbd7d608c86a426313a336b23cc6df88fce038186884a859630d515eb9','34c99180170e1dce998772f8b3f3e2f5caf17e62b65102a1c067c78c338da202','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','discharge','01a21615-68e9-75cb-bae5-a37033160e95','{"agent":"silicone-oil","eye":"right"}','34c99180170e1dce998772f8b3f3e2f5caf17e62b65102a1c067c78c338da202','ed9c62e988e441b0002510cba27ee3a4000a56e2996f72a3d6b0a765a2075ca0','[["patients", "01a21615-68e9-75cb-bae5-a36f903bf43c", "e8dcb149a6b7cf97da6c945ce3066a4dddf2ba0e3a23190db06dcd154cb8611a"], ["eyes", "01a21615-68e9-75cb-bae5-a37033160e95", "3c2a66a31f9076f54a935c2cdbf6a1f8c3813faad20b99ba445bb1086e58cc2e"], ["eyes", "01a21615-68e9-75cb-bae5-a371aeb15f92", "031db3ae4bbeb549d7d8444fdfb3d63f893052df2a9115504d9f7d7f1a890be5"], ["operations", "01a21615-68ea-7169-b127-5050c3e479fb", "f63ee168aab596d483a88aa6dbcde0c408e5cfce0612ea7b09048fa65cf0a3ec"], ["operation_records", "01a21615-68ea-7169-b127-505125c0043c", "d8306049963916470c5340fbabb7f878aca75f65ccb8499018e03aa897f5737a"], ["visits", "01a21615-68ea-7169-b127-50527758c9a9", "20fb01f156a21d51f84048dfd87c0d876807833ee48e00ebe977ffa3f457fd55"], ["visits", "01a21615-68ea-7169-b127-505336ad1d68", "f898c2523889070b8e1a77f172a8165109a69531e5da865d977c83e9c387d226"], ["follow_ups", "01a21615-68ea-7169-b127-5054968a7586", "6a050022037801e031e61b43a62e20ec974103171fdb333740c842be28d2dd98"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T14:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','consent given','01a21615-68d9-77c9-a5c1-cf13d676d2ce','{"said_by":"patient","what":"phone"}','ed9c62e988e441b0002510cba27ee3a4000a56e2996f72a3d6b0a765a2075ca0','94c6a520e63a8771607a394e3c0c2b69a5669f42adc193938c1290fa329e6d03','[["consents", "01a21615-68ee-7167-bb91-04ed6cbc1e9d", "5ac337bb8252aacd8cc5b058d3d7a6988e932cd0ecadb0789c5a747dd1fc052d"]]');
INSERT INTO "audit" VALUES(8,'2027-03-02T20:00:00.000000Z','patient:01a21615-68f4-7038-8517-bd8f4316b99d','device enrolled','01a21615-68d9-77c9-a5c1-cf13d676d2ce','null','94c6a520e63a8771607a394e3c0c2b69a5669f42adc193938c1290fa329e6d03','9c55c132aff8f7c89e1b7dbb0475472cd3bb4e88a1e96f5b0cc4cd26255b2a14','[["devices", "01a21615-68f4-7038-8517-bd8f4316b99d", "76df66a8a76809e7a34d249fc6c39399dd2b61d32274b5caef491a25e7aa2a11"]]');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','patient:01a21615-68f4-7038-8517-bd8f4316b99d','event posture','01a21615-68d9-77c9-a5c1-cf143177336c','{"id":"0195e5a0-0000-7000-8000-000000000001"}','9c55c132aff8f7c89e1b7dbb0475472cd3bb4e88a1e96f5b0cc4cd26255b2a14','7e904e3e15d1e90e85afb3ae1f222051cfa87223a6049b1f8f8022a2e11bdd9f','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','patient:01a21615-68f4-7038-8517-bd8f4316b99d','event symptoms','01a21615-68d9-77c9-a5c1-cf143177336c','{"id":"0195e5a0-0000-7000-8000-000000000002"}','7e904e3e15d1e90e85afb3ae1f222051cfa87223a6049b1f8f8022a2e11bdd9f','e0397da5ad99fee81f27205b8e5b4f961948ec089c7aeafd03ddaf668d022d9e','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"today","rule":"missed-early-visit"}','e0397da5ad99fee81f27205b8e5b4f961948ec089c7aeafd03ddaf668d022d9e','253dc66e988a9b66138a96f354565ba156741abcb3390e6b73fdd58382bd16a3','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"this-week","rule":"posture-missed"}','253dc66e988a9b66138a96f354565ba156741abcb3390e6b73fdd58382bd16a3','d1ef395ca8d4cd6ce370eebb3705928556af655074c25d1cefc74a2cdd97a86e','');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"this-week","rule":"silent-while-posturing"}','d1ef395ca8d4cd6ce370eebb3705928556af655074c25d1cefc74a2cdd97a86e','c4c11f5c81bd1f7a0a094e1016f53ea00a8f1429ce058426da162ddba5a51302','');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"this-week","rule":"no-posture-entry"}','c4c11f5c81bd1f7a0a094e1016f53ea00a8f1429ce058426da162ddba5a51302','5ec4b8a85769899521a307c6e1f00ce67480f4c5895f12c1392c0a9e8f0cc079','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"now","rule":"infection-suspected"}','5ec4b8a85769899521a307c6e1f00ce67480f4c5895f12c1392c0a9e8f0cc079','edfa7a85908ceac21f706b97266683ccf38d77766680c5ac924056f7b03c383a','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"now","rule":"severe-pain"}','edfa7a85908ceac21f706b97266683ccf38d77766680c5ac924056f7b03c383a','128b81a56d74af354549d353b6db76a491049aaf295cf0f5f9b6d11be26287ca','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"today","rule":"curtain"}','128b81a56d74af354549d353b6db76a491049aaf295cf0f5f9b6d11be26287ca','a0efea30bc564f0275649f0b4e1ca2ecd9e5f4aa7c89d382d1ce7916accd6800','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"today","rule":"pain"}','a0efea30bc564f0275649f0b4e1ca2ecd9e5f4aa7c89d382d1ce7916accd6800','d762a636f71631ae5d1081e6a3ff0d29457036c19007d3984fb076d44ffd72da','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"today","rule":"vision-worse"}','d762a636f71631ae5d1081e6a3ff0d29457036c19007d3984fb076d44ffd72da','57dcade6273be60ce1c5cc1e5a07396e5622a2e209c5de75e57a4f8afbfc0ceb','');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"this-week","rule":"vision-said-worse"}','57dcade6273be60ce1c5cc1e5a07396e5622a2e209c5de75e57a4f8afbfc0ceb','c4b0c12b948b32762c3f2f5bb3018c7b0f4e689b4457c218e19eabdc3d99e2b0','[["events", "0195e5a0-0000-7000-8000-000000000001", "979347e0ee37bcccbb15fdc933eecf40e98120c29d3e45444bd7360422adb714"], ["events", "0195e5a0-0000-7000-8000-000000000002", "c1779d779f37daa8e743d22e26ae4f86f9be110156abbf8ff890d494bf78c3b2"], ["refused_events", "4d728eaf2847872263e57d2310f0142e56a3e78be2b1fe56ada0884984bfa64b", "da2dd6e9d28a518cb641cbb2675a7d2c2cda878092d948c60011db3bd1a7860e"], ["callbacks", "01a21615-691e-76d0-9bb7-f0b0f31ee9ab", "f8cc2feee62bdaa35c58433d3cc5c193fe48413e96ba8c92163dcf28c2b5a4c1"], ["callback_steps", "01a21615-691e-76d0-9bb7-f0b11fb77480", "09938814e08bf034a0714f63b9a1224f4eae3e8fce160b7e0b6c6d11e1826ff1"], ["warnings", "01a21615-691e-76d0-9bb7-f0b2a9aab974", "42d911923bb36f4027b255c87b067c20b15000b343077cd74f71d20c82a6fd26"], ["callbacks", "01a21615-691f-7089-8171-4b4b924ab517", "5030caab527b2c5b3f32b478a20206ff05c07e725ba903aed0da08ab43132ff4"], ["callback_steps", "01a21615-691f-7089-8171-4b4c0339bb34", "9145c5200af714873349decc4bf8d86bbadba0f94ecd53fa2d7f2cf268f3f3c3"], ["warnings", "01a21615-691f-7089-8171-4b4d9c5135e9", "7c1d2916dbcd389fc41296195213576da09023a5fcc2734c47fe4552f7073250"], ["callbacks", "01a21615-691f-7089-8171-4b4e59b1f05e", "75e0fd308ab92954b663512383313ab89253f1de6c56261df551d0c0791d083d"], ["callback_steps", "01a21615-691f-7089-8171-4b4f556b167c", "c4c92a270489f240e4e19554752fd9a84020ef995ba1485ac179b23b688c3135"], ["warnings", "01a21615-691f-7089-8171-4b508123b7dc", "f2f7f9dc19da233b0b4967420e68aab1a2c89d21e0f48aa848601fa4e98245a4"], ["callback_steps", "01a21615-6920-7635-b0c3-26dbc77abcd9", "1196c6de459b78aa6dea1eb7673ae5860362fd365b2769b108d0ba9565e48886"], ["warnings", "01a21615-6920-7635-b0c3-26dc58fff574", "32f7253ccc43f4ad311633a043cc638eb5063b15f1cebf76b8abfb0e7315c2d0"], ["callbacks", "01a21615-6920-7635-b0c3-26dd95356164", "58596fc74920ca319edc7c5d05ab66a8fb2082bd9631bd7821684d2434e34d61"], ["callback_steps", "01a21615-6928-7582-9b11-cb8adeeede50", "8837fe22e0e7e94dfd5da772b47d0f78a187dda5d6a60867ae90ea0040a762f0"], ["warnings", "01a21615-6928-7582-9b11-cb8b9c5b8921", "58cb9c0490936cbe08d91c1bfafda0a5901cb5dc06507214b0c1659ab8b1ccbf"], ["callbacks", "01a21615-6929-71ca-a178-fe822517597f", "7021ddaca5f592e1d1fe00cf1d12e957b3ee1f11aa850596b40765b75acaccce"], ["callback_steps", "01a21615-6929-71ca-a178-fe837a59dd10", "1576db30310587c96b82901787bf59e1139e195a5ff9f2c5a22607cbd381f2f9"], ["warnings", "01a21615-6929-71ca-a178-fe847f516638", "1023d845333444af36cf503ad98f9a70ce86fbcb860ecdfac4b9f3b21d7fd91c"], ["callbacks", "01a21615-6929-71ca-a178-fe85ffb41bb5", "5b32a977f0c9dac8d97deefefb8cade330987c259f81863b571280a24ba63a9c"], ["callback_steps", "01a21615-6929-71ca-a178-fe8650c8d15d", "fc70d80883107402fe2b9be0123537fb98642dab07bca9a4677fb4d635834b9b"], ["warnings", "01a21615-6929-71ca-a178-fe87b7f0bbce", "ed95c52a7e642e84912c312d3bee5c4dd4055bfe7d26a19e20780b1987ec4ac3"], ["callback_steps", "01a21615-6929-71ca-a178-fe882c1eca53", "1ec1aaec1ea947b740cd5720491991bc0707f2861f1030e2aabd38547789051f"], ["warnings", "01a21615-6929-71ca-a178-fe89c503e3c1", "39213fe5c3bc9c5e2ea22d0e5eef337c10304a7d63b365cf2fbf05cec31598bf"], ["callback_steps", "01a21615-6929-71ca-a178-fe8a8a3897cc", "1f89cb0a5ad339db1968511666ecd63473423da45068fc006cb6b46b3d7d709b"], ["warnings", "01a21615-692b-76f3-a7eb-33666d260496", "600284812f21a83b087c74263d8c6b0eaffab20d08dd18516deef2f8ac22e949"], ["callback_steps", "01a21615-692c-70fb-9223-55d420b4ea24", "822e7f2928caf24facb601444d9280392b76b59d899c46c843f58805788df6e0"], ["warnings", "01a21615-692c-70fb-9223-55d521aae54a", "13cb4ca145b85fbf2879af247a57a0ffa4d109c221d37e5c2d008dde3f1790f3"]]');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','event measures','01a21615-68d9-77c9-a5c1-cf143177336c','{"id":"01a21615-693e-779e-b9da-239621b0b4c3"}','c4b0c12b948b32762c3f2f5bb3018c7b0f4e689b4457c218e19eabdc3d99e2b0','5c8a96ca1070fc1b68877bd333751b216a4a0965a0fbeb459ddd2054558afbe3','');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','event seen','01a21615-68d9-77c9-a5c1-cf143177336c','{"id":"01a21615-693f-734b-94bf-cff34d395067"}','5c8a96ca1070fc1b68877bd333751b216a4a0965a0fbeb459ddd2054558afbe3','d80f2abe40cf99ea8aa1d53c16b5df3d4d347d39b7b78a7fe840d90225b56288','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"now","rule":"pressure-severe"}','d80f2abe40cf99ea8aa1d53c16b5df3d4d347d39b7b78a7fe840d90225b56288','1171c468a965238b2a9b2b345ecab6748c9ff4d1d0d978ee9a2d60e878c956eb','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"today","rule":"pressure-spike"}','1171c468a965238b2a9b2b345ecab6748c9ff4d1d0d978ee9a2d60e878c956eb','bf6bc117ebd11e1f947c607cf5dc6049b3c1a680a2f9623100c72e0c73edd572','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"this-week","rule":"pressure-raised"}','bf6bc117ebd11e1f947c607cf5dc6049b3c1a680a2f9623100c72e0c73edd572','5b7aeb24555a3401a574c4f1bc3f313036e716b50591118b92621272ae79bf37','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"this-week","rule":"pressure-rise"}','5b7aeb24555a3401a574c4f1bc3f313036e716b50591118b92621272ae79bf37','6367b3cdb4d98eb5f77ec457040e906caacc8d4421cb635c1b67bb67d9346720','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68d9-77c9-a5c1-cf143177336c','{"how_soon":"this-week","rule":"pressure-rising"}','6367b3cdb4d98eb5f77ec457040e906caacc8d4421cb635c1b67bb67d9346720','993878d3f63e95eed89b93bab8a3b20c73359e99437be837d9370f22a043cdd7','[["events", "01a21615-693e-779e-b9da-239621b0b4c3", "aea5fdea6615f4b98c15cd977d9ee2aa092063b8a06813d34ebe4a85b80b4822"], ["events", "01a21615-693f-734b-94bf-cff34d395067", "b047b060035d5b9495a088ec3011defd9116aac5e070cf07386c9532836a85cb"], ["callback_steps", "01a21615-6949-700b-93b2-828e89b4c5e6", "7a45e5ae5ee66db11fc48b933ea091455b667c03b70d14d5f0a35198773e6149"], ["warnings", "01a21615-6949-700b-93b2-828ff77b42eb", "1ea64efb6b3a32238fb0f3f9a91a3d82f5b55418ecc550d8a0f5580456ffcf5b"], ["callback_steps", "01a21615-6949-700b-93b2-8290e64406e2", "0508bed6d9d82586791ca5540349ed32da2e35be9095313fbc64a3a1c844bd48"], ["warnings", "01a21615-6949-700b-93b2-82913d709f02", "eb22dff5250b97771ada50c67fecb37e6b0b8baaac93653874e829ef66103d9e"], ["callback_steps", "01a21615-6949-700b-93b2-82927b393045", "44465230974b3bd4793a598f53c32ca65d0b3283fd04bd5b4b522697d14fea72"], ["warnings", "01a21615-6949-700b-93b2-82933065f505", "562a91be748d9c7352ba91cbf618501f7328f22f960300d145c745ad3413fe47"], ["callback_steps", "01a21615-6949-700b-93b2-8294af3a17f8", "3009362d735b0db3620bd18506abddd815273d90b1c3ff1bf198a88bb1a35853"], ["warnings", "01a21615-6949-700b-93b2-82950223ef33", "44cec7833b7033b1ad747c3cfb6569d9d5ddb928e0c0e6b45f75ccd21305abc6"], ["callback_steps", "01a21615-694a-7129-9c5a-69fdc890c416", "136c9f547337a1dbc098ab8ba44b733ace86f6d977a5da8f030b59c0820e8b75"], ["warnings", "01a21615-694a-7129-9c5a-69fe225e0336", "2c8cd0a56950ba3b21452a7e33499aaae4430b99a8d62511fbe546a333668d90"]]');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','event measures','01a21615-68e9-75cb-bae5-a37033160e95','{"id":"01a21615-6958-730d-b781-1a2d6810788a"}','993878d3f63e95eed89b93bab8a3b20c73359e99437be837d9370f22a043cdd7','e0e436e1c60f58e7ea322b3bbd5f002825eece0409948183fa19ff56c5673fdd','');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68e9-75cb-bae5-a37033160e95','{"how_soon":"today","rule":"missed-early-visit"}','e0e436e1c60f58e7ea322b3bbd5f002825eece0409948183fa19ff56c5673fdd','91388703c13a7bc18b0deb198605d722c3e5ce0359a6fa6b79e782d2d4b96cfc','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68e9-75cb-bae5-a37033160e95','{"how_soon":"this-week","rule":"no-posture-entry"}','91388703c13a7bc18b0deb198605d722c3e5ce0359a6fa6b79e782d2d4b96cfc','f9978515cc1efd034c955da2b96fe2bfcccf3a367337b68ed407d44dc809c3e9','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21615-68e9-75cb-bae5-a37033160e95','{"how_soon":"this-week","rule":"silent-while-posturing"}','f9978515cc1efd034c955da2b96fe2bfcccf3a367337b68ed407d44dc809c3e9','9a7ffec9bd5dd57c5631b154f78e7dd934683709507d19098fd23b582bb8b575','[["events", "01a21615-6958-730d-b781-1a2d6810788a", "abec72f73c4c67282d436722184874c4e6aaa8265dee0f21c52bb319f57d7132"], ["callbacks", "01a21615-695a-72ac-b6d7-cb532f4991c9", "81ca7ae5fd4889629b17a7cf33c4ccf03a6c8cc526bbbe4ebb8d1cf374bb8c2c"], ["callback_steps", "01a21615-695a-72ac-b6d7-cb54eccbb8a1", "09f6a1a0e8211e00056a5bad7bdae70feba537ba423281b80bee02d5b75bb99f"], ["warnings", "01a21615-695a-72ac-b6d7-cb55fea172c3", "56b0ad18501027a00ca82a0b3e50b25db82c210009afca8c8125091dff1c4ef9"], ["callbacks", "01a21615-695a-72ac-b6d7-cb56a0e3587c", "4c930f4a21dd6ce92dc24385b5b991691e153613646f65e0ab04fe86152fccee"], ["callback_steps", "01a21615-695a-72ac-b6d7-cb578afde183", "ae44e913d02988010bba26a5562d3b0db47ecb5b7b5576cd1bfdc7a3ffc975e2"], ["warnings", "01a21615-695a-72ac-b6d7-cb58ee028e20", "f1e9277d1f92ded200961597538967ae4f38b1bc3fa19f3859d894d4d82b30f3"], ["callback_steps", "01a21615-695a-72ac-b6d7-cb5978302763", "0cf9644b10a4458d3af22481c7d00a2234bc2f9c3033936e1966412cdde7506d"], ["warnings", "01a21615-695a-72ac-b6d7-cb5a8347ef28", "156cab1ade69e872ebafd65833d8d169ab9dcde7abdde985f260e1b4c6fe5d20"]]');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','callback claimed','01a21615-6920-7635-b0c3-26dd95356164','null','9a7ffec9bd5dd57c5631b154f78e7dd934683709507d19098fd23b582bb8b575','35b9112c3839b96a2c12caf9b7f0d2d2bb2b99e08bdc978a975675aa60fe4df5','[["callbacks", "01a21615-6920-7635-b0c3-26dd95356164", "b2ada403dfc88b8a8e22ff31b07cc9e9fa4a3821d4f0319355b229e1c77bbd61"], ["callback_steps", "01a21615-6966-7242-873a-0cac8bb3a9bc", "1744e53752d0ace908c8dcb774392240fb74c42ffb36cc1ec46d816a8eccd6c1"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','callback attempt','01a21615-6920-7635-b0c3-26dd95356164','{"reached":true}','35b9112c3839b96a2c12caf9b7f0d2d2bb2b99e08bdc978a975675aa60fe4df5','418eafdbd011a5fc86fe9f085fe74eaa09c53b90991622dc7c039e32991b14d1','[["events", "01a21615-6974-742c-b301-15c20257532b", "0cdc95f7073d64f5804551d9b70a47fa22b22b355389d47e7d514c835a10877a"], ["callback_steps", "01a21615-6974-742c-b301-15c32447bb41", "6848613355e2b885589435c99b47749e0c95106e22c0abfec518908179c01339"], ["callbacks", "01a21615-6920-7635-b0c3-26dd95356164", "b2ada403dfc88b8a8e22ff31b07cc9e9fa4a3821d4f0319355b229e1c77bbd61"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','callback settled','01a21615-6920-7635-b0c3-26dd95356164','{"outcome":"advice"}','418eafdbd011a5fc86fe9f085fe74eaa09c53b90991622dc7c039e32991b14d1','511d1c57588a57e315dd8664edf1686a42c13e13463526797a2f1478a4d7d385','[["callbacks", "01a21615-6920-7635-b0c3-26dd95356164", "5d0b93d3d8cbc0de977b5c61187a5da9d0214d5c635e58aaeb8a0125739bbbaf"], ["callback_steps", "01a21615-6979-7162-9b55-7c7f386cd037", "d098b3641c2ed11a54f4623db7fbe7daf7e1b5ae75d303e746a261eb92de9414"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','surgeon:01a21615-68d4-7119-a7e7-1d96377c7134','protocol signed','reviews','{"fingerprint":"f544271cc2c2f9b1"}','511d1c57588a57e315dd8664edf1686a42c13e13463526797a2f1478a4d7d385','cc4b25946ccfb2802342546caa8b0fecb0c0f0d66e135131336d2efb727c47de','[["signatures", "01a21615-697d-7288-a67b-5b700e4d6e0f", "74603b65719ec44be315977635ed824683b310e80725f0f97c6d091afdabad00"]]');
CREATE TABLE call_people (
            who TEXT NOT NULL, patient_id TEXT NOT NULL, PRIMARY KEY (who, patient_id)
        ) STRICT, WITHOUT ROWID;
CREATE TABLE call_states (
            patient_id TEXT PRIMARY KEY, urgency INTEGER NOT NULL, since TEXT NOT NULL, first TEXT NOT NULL,
            level INTEGER NOT NULL, decided INTEGER NOT NULL
        ) STRICT;
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a21615-691e-76d0-9bb7-f0b11fb77480','01a21615-691e-76d0-9bb7-f0b0f31ee9ab','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21615-691f-7089-8171-4b4c0339bb34','01a21615-691f-7089-8171-4b4b924ab517','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21615-691f-7089-8171-4b4f556b167c','01a21615-691f-7089-8171-4b4e59b1f05e','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21615-6920-7635-b0c3-26dbc77abcd9','01a21615-691f-7089-8171-4b4e59b1f05e','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21615-6928-7582-9b11-cb8adeeede50','01a21615-6920-7635-b0c3-26dd95356164','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21615-6929-71ca-a178-fe837a59dd10','01a21615-6929-71ca-a178-fe822517597f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21615-6929-71ca-a178-fe8650c8d15d','01a21615-6929-71ca-a178-fe85ffb41bb5','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21615-6929-71ca-a178-fe882c1eca53','01a21615-6929-71ca-a178-fe822517597f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21615-6929-71ca-a178-fe8a8a3897cc','01a21615-6929-71ca-a178-fe85ffb41bb5','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21615-692c-70fb-9223-55d420b4ea24','01a21615-6929-71ca-a178-fe85ffb41bb5','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a21615-6949-700b-93b2-828e89b4c5e6','01a21615-6929-71ca-a178-fe822517597f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21615-6949-700b-93b2-8290e64406e2','01a21615-6929-71ca-a178-fe822517597f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21615-6949-700b-93b2-82927b393045','01a21615-6929-71ca-a178-fe822517597f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21615-6949-700b-93b2-8294af3a17f8','01a21615-6929-71ca-a178-fe822517597f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21615-694a-7129-9c5a-69fdc890c416','01a21615-6929-71ca-a178-fe822517597f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a21615-695a-72ac-b6d7-cb54eccbb8a1','01a21615-695a-72ac-b6d7-cb532f4991c9','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21615-695a-72ac-b6d7-cb578afde183','01a21615-695a-72ac-b6d7-cb56a0e3587c','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21615-695a-72ac-b6d7-cb5978302763','01a21615-695a-72ac-b6d7-cb56a0e3587c','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21615-6966-7242-873a-0cac8bb3a9bc','01a21615-6920-7635-b0c3-26dd95356164','2027-03-05T10:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21615-6974-742c-b301-15c32447bb41','01a21615-6920-7635-b0c3-26dd95356164','2027-03-05T10:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21615-6979-7162-9b55-7c7f386cd037','01a21615-6920-7635-b0c3-26dd95356164','2027-03-05T10:00:00.000000Z','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21615-691e-76d0-9bb7-f0b0f31ee9ab','01a21615-68d9-77c9-a5c1-cf143177336c','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-691f-7089-8171-4b4b924ab517','01a21615-68d9-77c9-a5c1-cf143177336c','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-691f-7089-8171-4b4e59b1f05e','01a21615-68d9-77c9-a5c1-cf143177336c','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-6920-7635-b0c3-26dd95356164','01a21615-68d9-77c9-a5c1-cf143177336c','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a21615-68ca-74ef-8db2-f27e57652e16','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a21615-68ca-74ef-8db2-f27e57652e16',NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-6929-71ca-a178-fe822517597f','01a21615-68d9-77c9-a5c1-cf143177336c','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-6929-71ca-a178-fe85ffb41bb5','01a21615-68d9-77c9-a5c1-cf143177336c','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-695a-72ac-b6d7-cb532f4991c9','01a21615-68e9-75cb-bae5-a37033160e95','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21615-695a-72ac-b6d7-cb56a0e3587c','01a21615-68e9-75cb-bae5-a37033160e95','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE changed_patients (patient_id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO "changed_patients" VALUES('01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "changed_patients" VALUES('01a21615-68e9-75cb-bae5-a36f903bf43c');
CREATE TABLE closures (
            number INTEGER PRIMARY KEY, day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
            closed INTEGER NOT NULL CHECK (closed IN (0, 1)), why TEXT NOT NULL, recorded_by TEXT NOT NULL,
            recorded_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE consents (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, at TEXT NOT NULL, what TEXT NOT NULL,
            given INTEGER NOT NULL CHECK (given IN (0, 1)), said_by TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "consents" VALUES('01a21615-68ee-7167-bb91-04ed6cbc1e9d','01a21615-68d9-77c9-a5c1-cf13d676d2ce','2027-03-02T14:00:00.000000Z','phone',1,'patient','','nurse:01a21615-68ca-74ef-8db2-f27e57652e16');
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "devices" VALUES('01a21615-68f4-7038-8517-bd8f4316b99d','01a21615-68d9-77c9-a5c1-cf13d676d2ce','0cbf6fd764581d04aca6f1e4e4cf0c842728160e82622960a205e8527188a01b','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL,'');
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "enrolments" VALUES('01a21615-68e1-77af-92fa-3ef769dded59','01a21615-68d9-77c9-a5c1-cf13d676d2ce','18a03f912b7f16b5e9e722da810039f70db7447d4d49ddb384f64bd9657fd743','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0,'');
INSERT INTO "enrolments" VALUES('01a21615-68ea-7169-b127-50553026d285','01a21615-68e9-75cb-bae5-a36f903bf43c','7e9edf7847403a9fa2f9a06ff9cdccc24581c4de4b9e49ee2fb216baa6eb4e13','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0,'');
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21615-68d9-77c9-a5c1-cf143177336c','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21615-68f4-7038-8517-bd8f4316b99d','01a21615-68f4-7038-8517-bd8f4316b99d',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21615-68d9-77c9-a5c1-cf143177336c','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21615-68f4-7038-8517-bd8f4316b99d','01a21615-68f4-7038-8517-bd8f4316b99d',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21615-693e-779e-b9da-239621b0b4c3','01a21615-68d9-77c9-a5c1-cf143177336c','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21615-68ca-74ef-8db2-f27e57652e16',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21615-693f-734b-94bf-cff34d395067','01a21615-68d9-77c9-a5c1-cf143177336c','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21615-68e0-726f-9819-9ff634196749"}','nurse:01a21615-68ca-74ef-8db2-f27e57652e16',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21615-6958-730d-b781-1a2d6810788a','01a21615-68e9-75cb-bae5-a37033160e95','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21615-68ca-74ef-8db2-f27e57652e16',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21615-6974-742c-b301-15c20257532b','01a21615-68d9-77c9-a5c1-cf143177336c','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21615-68ca-74ef-8db2-f27e57652e16',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE eye_states (
            eye_id TEXT PRIMARY KEY, patient_id TEXT NOT NULL, version TEXT NOT NULL, look_at TEXT NOT NULL DEFAULT '',
            agent TEXT NOT NULL, operated_at TEXT NOT NULL, posture_from TEXT, posture_until TEXT,
            next_visit TEXT, next_earliest TEXT, next_target TEXT, next_latest TEXT,
            how_soon TEXT, worry TEXT NOT NULL, worry_since TEXT, worry_due_at TEXT, reason TEXT NOT NULL,
            last_heard TEXT, last_measures TEXT
        ) STRICT;
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-68d9-77c9-a5c1-cf13d676d2ce','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21615-68da-7281-b98a-a12b54faed06','01a21615-68d9-77c9-a5c1-cf13d676d2ce','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21615-68e9-75cb-bae5-a37033160e95','01a21615-68e9-75cb-bae5-a36f903bf43c','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21615-68e9-75cb-bae5-a371aeb15f92','01a21615-68e9-75cb-bae5-a36f903bf43c','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21615-68e0-726f-9819-9ff86653a91e','01a21615-68d9-77c9-a5c1-cf143177336c','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21615-68ca-74ef-8db2-f27e57652e16');
INSERT INTO "follow_ups" VALUES('01a21615-68ea-7169-b127-5054968a7586','01a21615-68e9-75cb-bae5-a37033160e95','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21615-68ca-74ef-8db2-f27e57652e16');
CREATE TABLE job_runs (job TEXT PRIMARY KEY, started_at TEXT NOT NULL, ended_at TEXT, result TEXT) STRICT;
CREATE TABLE listed_operations (
            id TEXT PRIMARY KEY, number TEXT NOT NULL, name TEXT NOT NULL, operated_on TEXT NOT NULL, eye TEXT NOT NULL,
            body TEXT NOT NULL, source TEXT NOT NULL, listed_by TEXT NOT NULL, listed_at TEXT NOT NULL,
            put_aside_at TEXT, put_aside_by TEXT, put_aside_why TEXT NOT NULL DEFAULT ''
        ) STRICT;
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
INSERT INTO "operation_records" VALUES('01a21615-68dc-763b-940d-2492e0738a5f','01a21615-68dc-763b-940d-2491cbef089a','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21615-68ea-7169-b127-505125c0043c','01a21615-68ea-7169-b127-5050c3e479fb','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21615-68dc-763b-940d-2491cbef089a','01a21615-68d9-77c9-a5c1-cf143177336c','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21615-68ea-7169-b127-5050c3e479fb','01a21615-68e9-75cb-bae5-a37033160e95','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('rson','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('9','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('9876','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('09876','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('pia','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('son','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('009876','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('ia','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('876','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('76','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('00','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('person','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('on','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('s','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('1','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('s1','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('erson','01a21615-68d9-77c9-a5c1-cf13d676d2ce');
INSERT INTO "patient_terms" VALUES('9','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('9876','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('09876','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('laf','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('ther','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('009876','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('er','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('s2','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('olaf','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('876','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('76','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('other','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('2','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('00','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('her','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('s','01a21615-68e9-75cb-bae5-a36f903bf43c');
INSERT INTO "patient_terms" VALUES('af','01a21615-68e9-75cb-bae5-a36f903bf43c');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a21615-68d9-77c9-a5c1-cf13d676d2ce','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a21615-68e9-75cb-bae5-a36f903bf43c','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-68f4-7038-8517-bd8f4316b99d','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21615-68d9-77c9-a5c1-cf143177336c", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21615-697d-7288-a67b-5b700e4d6e0f','reviews','f544271cc2c2f9b1','01a21615-68d4-7119-a7e7-1d96377c7134','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER) STRICT;
INSERT INTO "staff" VALUES('01a21615-68ca-74ef-8db2-f27e57652e16','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$UtGVJnQW0W5as5nKJOzAIQ$Gpi670xUA7ZL7fDXOBO7aHWXsMPXg2jD78rJE+fU40g','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL);
INSERT INTO "staff" VALUES('01a21615-68d4-7119-a7e7-1d96377c7134','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$61OJO/Ra2yqxEln8CobvIw$OajIs1va3ZVQlN3JtlSr90AZo/CurBETDAq5XD1hst0','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL);
CREATE TABLE state_made (only INTEGER PRIMARY KEY CHECK (only = 1), how TEXT NOT NULL) STRICT;
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        , decision TEXT) STRICT;
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visit_states (
            identity TEXT PRIMARY KEY, visit_id TEXT NOT NULL, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL,
            target TEXT NOT NULL, latest TEXT NOT NULL, hour TEXT NOT NULL, urgency INTEGER NOT NULL, name TEXT NOT NULL,
            waited INTEGER NOT NULL, away INTEGER NOT NULL, seen_at TEXT, here_at TEXT, arrival TEXT NOT NULL
        ) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '', starts TEXT
            CHECK (starts IS NULL OR (starts GLOB '[0-2][0-9]:[0-5][0-9]' AND starts < '24:00')), why TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a21615-68e0-726f-9819-9ff634196749','01a21615-68d9-77c9-a5c1-cf143177336c','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','2027-03-02T19:00:00.000000Z',NULL,0,'01a21615-68e0-726f-9819-9ff634196749',NULL,'');
INSERT INTO "visits" VALUES('01a21615-68e0-726f-9819-9ff7f903b7be','01a21615-68d9-77c9-a5c1-cf143177336c','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','2027-03-02T19:00:00.000000Z',NULL,0,'01a21615-68e0-726f-9819-9ff7f903b7be',NULL,'');
INSERT INTO "visits" VALUES('01a21615-68ea-7169-b127-50527758c9a9','01a21615-68e9-75cb-bae5-a37033160e95','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','2027-03-02T19:00:00.000000Z',NULL,0,'01a21615-68ea-7169-b127-50527758c9a9',NULL,'');
INSERT INTO "visits" VALUES('01a21615-68ea-7169-b127-505336ad1d68','01a21615-68e9-75cb-bae5-a37033160e95','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21615-68ca-74ef-8db2-f27e57652e16','2027-03-02T19:00:00.000000Z',NULL,0,'01a21615-68ea-7169-b127-505336ad1d68',NULL,'');
CREATE TABLE visits_to_tell (
            visit_id TEXT PRIMARY KEY REFERENCES visits, made_at TEXT NOT NULL, told_at TEXT, told_by TEXT
        ) STRICT;
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
INSERT INTO "warnings" VALUES('01a21615-691e-76d0-9bb7-f0b2a9aab974','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-691e-76d0-9bb7-f0b0f31ee9ab','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-691f-7089-8171-4b4d9c5135e9','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-691f-7089-8171-4b4b924ab517','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12.0}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-691f-7089-8171-4b508123b7dc','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-691f-7089-8171-4b4e59b1f05e','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-6920-7635-b0c3-26dc58fff574','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-691f-7089-8171-4b4e59b1f05e','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-6928-7582-9b11-cb8b9c5b8921','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6920-7635-b0c3-26dd95356164','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-6929-71ca-a178-fe847f516638','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe822517597f','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-6929-71ca-a178-fe87b7f0bbce','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe85ffb41bb5','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-6929-71ca-a178-fe89c503e3c1','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe822517597f','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-692b-76f3-a7eb-33666d260496','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe85ffb41bb5','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-692c-70fb-9223-55d521aae54a','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe85ffb41bb5','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-6949-700b-93b2-828ff77b42eb','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe822517597f','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-6949-700b-93b2-82913d709f02','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe822517597f','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-6949-700b-93b2-82933065f505','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe822517597f','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-6949-700b-93b2-82950223ef33','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe822517597f','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15.0,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-694a-7129-9c5a-69fe225e0336','01a21615-68d9-77c9-a5c1-cf143177336c','01a21615-6929-71ca-a178-fe822517597f','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15.0}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-695a-72ac-b6d7-cb55fea172c3','01a21615-68e9-75cb-bae5-a37033160e95','01a21615-695a-72ac-b6d7-cb532f4991c9','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-695a-72ac-b6d7-cb58ee028e20','01a21615-68e9-75cb-bae5-a37033160e95','01a21615-695a-72ac-b6d7-cb56a0e3587c','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21615-695a-72ac-b6d7-cb5a8347ef28','01a21615-68e9-75cb-bae5-a37033160e95','01a21615-695a-72ac-b6d7-cb56a0e3587c','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
CREATE TABLE wish_states (
            event_id TEXT PRIMARY KEY, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL, at TEXT NOT NULL, visit TEXT NOT NULL,
            identity TEXT, words TEXT NOT NULL
        ) STRICT;
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
CREATE INDEX closures_of_day ON closures (day, number);
CREATE TRIGGER closures_keeps_update BEFORE UPDATE ON closures BEGIN SELECT RAISE(ABORT, 'closures is append-only: record a correction instead'); END;
CREATE TRIGGER closures_keeps_delete BEFORE DELETE ON closures BEGIN SELECT RAISE(ABORT, 'closures is append-only: record a correction instead'); END;
CREATE INDEX eye_states_of_patient ON eye_states (patient_id);
CREATE INDEX eyes_to_look_at ON eye_states (look_at);
CREATE INDEX eyes_posturing ON eye_states (posture_until) WHERE posture_until IS NOT NULL;
CREATE INDEX visit_states_of_patient ON visit_states (patient_id);
CREATE INDEX visits_waited ON visit_states (target, hour, urgency, name, identity, latest, away, here_at) WHERE waited;
CREATE INDEX visits_here ON visit_states (here_at) WHERE waited AND here_at IS NOT NULL;
CREATE INDEX visits_seen ON visit_states (seen_at) WHERE seen_at IS NOT NULL;
CREATE INDEX visits_unseen ON visit_states (target) WHERE seen_at IS NULL;
CREATE INDEX wish_states_of_patient ON wish_states (patient_id);
CREATE INDEX wishes_in_order ON wish_states (at, event_id);
CREATE INDEX calls_in_order ON call_states (urgency, since, first, level, decided, patient_id);
CREATE INDEX calls_counted ON call_states (urgency, level, decided);
CREATE INDEX people_of_call ON call_people (patient_id);
CREATE INDEX events_off_time ON events (eye_id) WHERE NOT (at GLOB '[12][0-9][0-9][0-9]-*' AND at BETWEEN '1900' AND '2201');
CREATE INDEX records_off_time ON operation_records (operation_id) WHERE NOT (operated_at GLOB '[12][0-9][0-9][0-9]-*' AND operated_at BETWEEN '1900' AND '2201');
CREATE INDEX visits_off_time ON visits (eye_id) WHERE NOT ((target GLOB '[12][0-9][0-9][0-9]-*' AND target BETWEEN '1900' AND '2201') AND (earliest GLOB '[12][0-9][0-9][0-9]-*' AND earliest BETWEEN '1900' AND '2201') AND (latest GLOB '[12][0-9][0-9][0-9]-*' AND latest BETWEEN '1900' AND '2201'));
CREATE INDEX events_of_clinic ON events (at) WHERE kind IN ('seen', 'measures', 'did-not-come');
CREATE INDEX refused_by_time ON refused_events (received_at);
CREATE INDEX visits_untold ON visits_to_tell (made_at) WHERE told_at IS NULL;
CREATE INDEX callbacks_of_eye ON callbacks (eye_id, opened_at);
CREATE INDEX callbacks_moved_up ON callbacks (due_at) WHERE state != 'settled' AND level > 0;
CREATE INDEX callbacks_for_now ON callbacks (opened_at) WHERE state != 'settled' AND how_soon = 'now' AND level = 0;
CREATE INDEX callbacks_silent ON callbacks (opened_at) WHERE state != 'settled' AND worry = 'silence';
CREATE INDEX callbacks_settled ON callbacks (settled_at) WHERE settled_at IS NOT NULL;
CREATE INDEX tasks_open ON tasks (owner) WHERE done_at IS NULL;
CREATE INDEX steps_by_kind ON callback_steps (step, at);
CREATE INDEX eyes_followed ON eyes (patient_id) WHERE followed_since IS NOT NULL AND ended_at IS NULL;
CREATE TRIGGER visits_changed_insert AFTER INSERT ON visits BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER visits_changed_update AFTER UPDATE ON visits BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER visits_changed_delete AFTER DELETE ON visits BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER events_changed_insert AFTER INSERT ON events BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER events_changed_update AFTER UPDATE ON events BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER events_changed_delete AFTER DELETE ON events BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER warnings_changed_insert AFTER INSERT ON warnings BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER warnings_changed_update AFTER UPDATE ON warnings BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER warnings_changed_delete AFTER DELETE ON warnings BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER follow_ups_changed_insert AFTER INSERT ON follow_ups BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER follow_ups_changed_update AFTER UPDATE ON follow_ups BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER follow_ups_changed_delete AFTER DELETE ON follow_ups BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER callbacks_changed_insert AFTER INSERT ON callbacks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER callbacks_changed_update AFTER UPDATE ON callbacks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER callbacks_changed_delete AFTER DELETE ON callbacks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER tasks_changed_insert AFTER INSERT ON tasks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER tasks_changed_update AFTER UPDATE ON tasks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER tasks_changed_delete AFTER DELETE ON tasks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER operations_changed_insert AFTER INSERT ON operations BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER operations_changed_update AFTER UPDATE ON operations BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER operations_changed_delete AFTER DELETE ON operations BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER operation_records_changed_insert AFTER INSERT ON operation_records BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = NEW.operation_id; END;
CREATE TRIGGER operation_records_changed_update AFTER UPDATE ON operation_records BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = OLD.operation_id; INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = NEW.operation_id; END;
CREATE TRIGGER operation_records_changed_delete AFTER DELETE ON operation_records BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = OLD.operation_id; END;
CREATE TRIGGER warning_grounds_changed_insert AFTER INSERT ON warning_grounds BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = NEW.warning_id; END;
CREATE TRIGGER warning_grounds_changed_update AFTER UPDATE ON warning_grounds BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = OLD.warning_id; INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = NEW.warning_id; END;
CREATE TRIGGER warning_grounds_changed_delete AFTER DELETE ON warning_grounds BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = OLD.warning_id; END;
CREATE TRIGGER patients_changed_insert AFTER INSERT ON patients BEGIN INSERT OR IGNORE INTO changed_patients SELECT NEW.id; END;
CREATE TRIGGER patients_changed_update AFTER UPDATE ON patients BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.id; INSERT OR IGNORE INTO changed_patients SELECT NEW.id; END;
CREATE TRIGGER patients_changed_delete AFTER DELETE ON patients BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.id; END;
CREATE TRIGGER eyes_changed_insert AFTER INSERT ON eyes BEGIN INSERT OR IGNORE INTO changed_patients SELECT NEW.patient_id; END;
CREATE TRIGGER eyes_changed_update AFTER UPDATE ON eyes BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.patient_id; INSERT OR IGNORE INTO changed_patients SELECT NEW.patient_id; END;
CREATE TRIGGER eyes_changed_delete AFTER DELETE ON eyes BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.patient_id; END;
CREATE TRIGGER protocol_texts_changed AFTER INSERT ON protocol_texts BEGIN UPDATE eye_states SET look_at = ''; END;
CREATE INDEX sessions_of_staff ON sessions (staff_id, ended_at);
CREATE INDEX pages_opened_by_time ON pages_opened (at);
CREATE INDEX pages_opened_about ON pages_opened (about, at);
CREATE TRIGGER pages_opened_keeps_update BEFORE UPDATE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE TRIGGER pages_opened_keeps_delete BEFORE DELETE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE INDEX listed_by_day ON listed_operations (operated_on);
CREATE INDEX consents_of_patient ON consents (patient_id, what, at);
CREATE TRIGGER consents_keeps_update BEFORE UPDATE ON consents BEGIN SELECT RAISE(ABORT, 'consents is append-only: record a correction instead'); END;
CREATE TRIGGER consents_keeps_delete BEFORE DELETE ON consents BEGIN SELECT RAISE(ABORT, 'consents is append-only: record a correction instead'); END;
COMMIT;
