/**
 * Passwords of ten characters and more that turn up again and again: from memory of published breach
 * statistics; shorter ones are refused by length.
 */
export const COMMON_PASSWORDS: ReadonlySet<string> = new Set(
  `1234567890 12345678910 0123456789 0987654321 1q2w3e4r5t 1q2w3e4r5t6y 1qaz2wsx3edc qwertyuiop qwerty12345
  qwerty123456 qwertyuiop123 q1w2e3r4t5 q1w2e3r4t5y6 asdfghjkl123 asdfghjkl1 zxcvbnm123 zxcvbnm1234 password12
  password123 password1234 password12345 password123456 passw0rd123 p@ssw0rd123 p@ssword123 mypassword password01
  passwordpassword iloveyou123 iloveyou12 iloveyou1234 letmein123 letmein1234 welcome123 welcome1234 welcome2024
  welcome2025 welcome2026 admin12345 admin123456 administrator adminadmin changeme123 changeme1234 football123
  baseball123 sunshine123 princess123 princess12 monkey12345 dragon12345 superman123 batman12345 charlie123
  michael123 jordan12345 abc1234567 abc123456789 abcd123456 abcdefghij abcdefghijk abcdef12345 a1b2c3d4e5
  aa12345678 aaaaaaaaaa 1111111111 0000000000 1212121212 1231231234 123123123123 123456789a 123456789q a123456789
  9876543210 11223344556 1122334455 5555555555 9999999999 7777777777 qazwsxedcrfv qazwsxedc123 secret12345
  trustno1trustno1 whatever123 computer123 internet123 motorcycle motorcycle1 motorbike123 carburettor carburetor
  throttlewright workshop123 mechanic123 summer2024 summer2025 summer2026 winter2024 winter2025 winter2026
  spring2025 spring2026 autumn2025 autumn2026 december2025 november2026 liverpool123 liverpool1 chelsea12345
  manchester hellohello hello12345 hello123456 test123456 testtest123 guest12345 guestguest user123456 rootroot123
  default123 temporary1 temporary123 companyname google12345 facebook123 samsung123 starwars123 pokemon123
  blink182blink lovelovelove loveyou123 fuckyou123 fuckyou1234 asdasdasdasd asdf123456 asdf1234567 asdfasdfasdf
  qweqweqweqwe qwe123456789 qweasdzxc123 zaq12wsxcde3 zaq1zaq1zaq1 1password1 thequickbrown`
    .split(/\s+/)
    .filter(Boolean),
);
