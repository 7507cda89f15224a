// Made by schemas/generate.mjs with ajv; do not edit.
var W=(s,n)=>()=>{try{return n||s((n={exports:{}}).exports,n),n.exports}catch(h){throw n=0,h}};var J=W(B=>{"use strict";Object.defineProperty(B,"__esModule",{value:!0});function G(s){let n=s.length,h=0,c=0,o;for(;c<n;)h++,o=s.charCodeAt(c++),o>=55296&&o<=
56319&&c<n&&(o=s.charCodeAt(c),(o&64512)===56320&&c++);return h}B.default=G;G.code=""});var ge=T,X={type:"object",additionalProperties:!1,required:["version"],properties:{version:{$ref:"#/definitions/version"},title:{type:"string",maxLength:200},stock:{
type:"string",minLength:1},film:{$ref:"#/definitions/film"},format:{$ref:"#/definitions/format"},exposed:{$ref:"#/definitions/exposed"},iptc:{$ref:"#/definition\
s/iptc"},scans:{type:"string",minLength:1},light:{$ref:"#/definitions/light"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/positive"},
output:{$ref:"#/definitions/outputs"},frames:{type:"object",patternProperties:{"^[0-9]{1,3}[A-Z]?$":{$ref:"#/definitions/frame"}},additionalProperties:!1},note:{
$ref:"#/definitions/note"},fingerprints:{type:"object",additionalProperties:{$ref:"#/definitions/fingerprint"}},automatic:{$ref:"#/definitions/automatic"}}},j=Object.
prototype.hasOwnProperty,y=J().default;function w(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s!==1){let r={instancePath:n,schemaPath:"#/const",keyword:"\
const",params:{allowedValue:1}};e===null?e=[r]:e.push(r),t++}return w.errors=e,t===0}var Y={enum:["colour-negative","black-and-white-negative","slide"]};function x(s,{
instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(!(s==="colour-negative"||s==="black-and-white-negative"||s==="slide")){let r={
instancePath:n,schemaPath:"#/enum",keyword:"enum",params:{allowedValues:Y.enum}};e===null?e=[r]:e.push(r),t++}return x.errors=e,t===0}var ee={type:["string","ar\
ray"],items:{type:"number",minimum:1,maximum:1e3},minItems:2,maxItems:2,pattern:"^(?:135|135-half|24x24|24x65|645|6x6|6x7|6x8|6x9|6x12|6x17|127-4x3|127-4x4|127-\
4x6|126|110|cine-35|cine-16|cine-16w|cine-9\\.5|cine-8|cine-8s|4x5in|5x7in|8x10in)$",examples:["135","135-half","24x24","24x65","645","6x6","6x7","6x8","6x9","6\
x12","6x17","127-4x3","127-4x4","127-4x6","126","110","cine-35","cine-16","cine-16w","cine-9.5","cine-8","cine-8s","4x5in","5x7in","8x10in"]},re=new RegExp("^(?\
:135|135-half|24x24|24x65|645|6x6|6x7|6x8|6x9|6x12|6x17|127-4x3|127-4x4|127-4x6|126|110|cine-35|cine-16|cine-16w|cine-9\\.5|cine-8|cine-8s|4x5in|5x7in|8x10in)$",
"u");function b(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(typeof s!="string"&&!Array.isArray(s)){let r={instancePath:n,
schemaPath:"#/type",keyword:"type",params:{type:ee.type}};e===null?e=[r]:e.push(r),t++}if(typeof s=="string"&&!re.test(s)){let r={instancePath:n,schemaPath:"#/p\
attern",keyword:"pattern",params:{pattern:"^(?:135|135-half|24x24|24x65|645|6x6|6x7|6x8|6x9|6x12|6x17|127-4x3|127-4x4|127-4x6|126|110|cine-35|cine-16|cine-16w|c\
ine-9\\.5|cine-8|cine-8s|4x5in|5x7in|8x10in)$"}};e===null?e=[r]:e.push(r),t++}if(Array.isArray(s)){if(s.length>2){let i={instancePath:n,schemaPath:"#/maxItems",
keyword:"maxItems",params:{limit:2}};e===null?e=[i]:e.push(i),t++}if(s.length<2){let i={instancePath:n,schemaPath:"#/minItems",keyword:"minItems",params:{limit:2}};
e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++){let a=s[i];if(typeof a=="number"&&isFinite(a)){if(a>1e3||isNaN(a)){let m={instancePath:n+"/"+i,
schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e3}};e===null?e=[m]:e.push(m),t++}if(a<1||isNaN(a)){let m={instancePath:n+"/"+i,schemaPath:"\
#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:1}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/"+i,schemaPath:"#/items/type",keyword:"\
type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}return b.errors=e,t===0}var K={type:"object",additionalProperties:!1,properties:{camera:{type:"stri\
ng",maxLength:200},lens:{type:"string",maxLength:200},date:{type:"string",pattern:"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"},time:{type:"string",pattern:"^([01][0-9]|2[0-3\
]):[0-5][0-9](:[0-5][0-9])?([+-](0[0-9]|1[0-4]):[0-5][0-9])?$"},rated:{type:"number",minimum:.1,maximum:1e5},push:{type:"number",minimum:-5,maximum:5},place:{type:"\
string",maxLength:200},coordinates:{type:"array",minItems:2,maxItems:2,items:[{type:"number",minimum:-90,maximum:90},{type:"number",minimum:-180,maximum:180}]},
focal:{type:"number",minimum:.5,maximum:2e4},aperture:{type:"number",minimum:.5,maximum:2e3},shutter:{type:["number","string"],minimum:1e-5,maximum:1e6,pattern:"\
^1/[1-9][0-9]{0,5}$"},filter:{type:"string",maxLength:200},developer:{type:"string",maxLength:200}}},ie=new RegExp("^[0-9]{4}-[0-9]{2}-[0-9]{2}$","u"),te=new RegExp(
"^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?([+-](0[0-9]|1[0-4]):[0-5][0-9])?$","u"),se=new RegExp("^1/[1-9][0-9]{0,5}$","u");function N(s,{instancePath:n="",parentData:h,
parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!j.call(K.properties,r)){let i={instancePath:n,
schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.camera!==void 0){let r=s.camera;
if(typeof r=="string"){if(y(r)>200){let i={instancePath:n+"/camera",schemaPath:"#/properties/camera/maxLength",keyword:"maxLength",params:{limit:200}};e===null?
e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/camera",schemaPath:"#/properties/camera/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),
t++}}if(s.lens!==void 0){let r=s.lens;if(typeof r=="string"){if(y(r)>200){let i={instancePath:n+"/lens",schemaPath:"#/properties/lens/maxLength",keyword:"maxLen\
gth",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/lens",schemaPath:"#/properties/lens/type",keyword:"type",params:{type:"strin\
g"}};e===null?e=[i]:e.push(i),t++}}if(s.date!==void 0){let r=s.date;if(typeof r=="string"){if(!ie.test(r)){let i={instancePath:n+"/date",schemaPath:"#/propertie\
s/date/pattern",keyword:"pattern",params:{pattern:"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/date",schemaPath:"\
#/properties/date/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.time!==void 0){let r=s.time;if(typeof r=="string"){if(!te.test(
r)){let i={instancePath:n+"/time",schemaPath:"#/properties/time/pattern",keyword:"pattern",params:{pattern:"^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?([+-](0[\
0-9]|1[0-4]):[0-5][0-9])?$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/time",schemaPath:"#/properties/time/type",keyword:"type",params:{type:"\
string"}};e===null?e=[i]:e.push(i),t++}}if(s.rated!==void 0){let r=s.rated;if(typeof r=="number"&&isFinite(r)){if(r>1e5||isNaN(r)){let i={instancePath:n+"/rated",
schemaPath:"#/properties/rated/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e5}};e===null?e=[i]:e.push(i),t++}if(r<.1||isNaN(r)){let i={instancePath:n+
"/rated",schemaPath:"#/properties/rated/minimum",keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"\
/rated",schemaPath:"#/properties/rated/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.push!==void 0){let r=s.push;if(typeof r==
"number"&&isFinite(r)){if(r>5||isNaN(r)){let i={instancePath:n+"/push",schemaPath:"#/properties/push/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};
e===null?e=[i]:e.push(i),t++}if(r<-5||isNaN(r)){let i={instancePath:n+"/push",schemaPath:"#/properties/push/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/push",schemaPath:"#/properties/push/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(
i),t++}}if(s.place!==void 0){let r=s.place;if(typeof r=="string"){if(y(r)>200){let i={instancePath:n+"/place",schemaPath:"#/properties/place/maxLength",keyword:"\
maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/place",schemaPath:"#/properties/place/type",keyword:"type",params:{type:"\
string"}};e===null?e=[i]:e.push(i),t++}}if(s.coordinates!==void 0){let r=s.coordinates;if(Array.isArray(r)){if(r.length>2){let a={instancePath:n+"/coordinates",
schemaPath:"#/properties/coordinates/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}if(r.length<2){let a={instancePath:n+"/coordina\
tes",schemaPath:"#/properties/coordinates/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}let i=r.length;if(i>0){let a=r[0];if(typeof a==
"number"&&isFinite(a)){if(a>90||isNaN(a)){let m={instancePath:n+"/coordinates/0",schemaPath:"#/properties/coordinates/items/0/maximum",keyword:"maximum",params:{
comparison:"<=",limit:90}};e===null?e=[m]:e.push(m),t++}if(a<-90||isNaN(a)){let m={instancePath:n+"/coordinates/0",schemaPath:"#/properties/coordinates/items/0/\
minimum",keyword:"minimum",params:{comparison:">=",limit:-90}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/coordinates/0",schemaPath:"#/propertie\
s/coordinates/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(i>1){let a=r[1];if(typeof a=="number"&&isFinite(a)){if(a>180||
isNaN(a)){let m={instancePath:n+"/coordinates/1",schemaPath:"#/properties/coordinates/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:180}};e===
null?e=[m]:e.push(m),t++}if(a<-180||isNaN(a)){let m={instancePath:n+"/coordinates/1",schemaPath:"#/properties/coordinates/items/1/minimum",keyword:"minimum",params:{
comparison:">=",limit:-180}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/coordinates/1",schemaPath:"#/properties/coordinates/items/1/type",keyword:"\
type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let i={instancePath:n+"/coordinates",schemaPath:"#/properties/coordinates/type",keyword:"type",
params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.focal!==void 0){let r=s.focal;if(typeof r=="number"&&isFinite(r)){if(r>2e4||isNaN(r)){let i={instancePath:n+
"/focal",schemaPath:"#/properties/focal/maximum",keyword:"maximum",params:{comparison:"<=",limit:2e4}};e===null?e=[i]:e.push(i),t++}if(r<.5||isNaN(r)){let i={instancePath:n+
"/focal",schemaPath:"#/properties/focal/minimum",keyword:"minimum",params:{comparison:">=",limit:.5}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"\
/focal",schemaPath:"#/properties/focal/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.aperture!==void 0){let r=s.aperture;if(typeof r==
"number"&&isFinite(r)){if(r>2e3||isNaN(r)){let i={instancePath:n+"/aperture",schemaPath:"#/properties/aperture/maximum",keyword:"maximum",params:{comparison:"<=",
limit:2e3}};e===null?e=[i]:e.push(i),t++}if(r<.5||isNaN(r)){let i={instancePath:n+"/aperture",schemaPath:"#/properties/aperture/minimum",keyword:"minimum",params:{
comparison:">=",limit:.5}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/aperture",schemaPath:"#/properties/aperture/type",keyword:"type",params:{type:"\
number"}};e===null?e=[i]:e.push(i),t++}}if(s.shutter!==void 0){let r=s.shutter;if(!(typeof r=="number"&&isFinite(r))&&typeof r!="string"){let i={instancePath:n+
"/shutter",schemaPath:"#/properties/shutter/type",keyword:"type",params:{type:K.properties.shutter.type}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(
r)){if(r>1e6||isNaN(r)){let i={instancePath:n+"/shutter",schemaPath:"#/properties/shutter/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e6}};e===null?
e=[i]:e.push(i),t++}if(r<1e-5||isNaN(r)){let i={instancePath:n+"/shutter",schemaPath:"#/properties/shutter/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-5}};
e===null?e=[i]:e.push(i),t++}}if(typeof r=="string"&&!se.test(r)){let i={instancePath:n+"/shutter",schemaPath:"#/properties/shutter/pattern",keyword:"pattern",params:{
pattern:"^1/[1-9][0-9]{0,5}$"}};e===null?e=[i]:e.push(i),t++}}if(s.filter!==void 0){let r=s.filter;if(typeof r=="string"){if(y(r)>200){let i={instancePath:n+"/f\
ilter",schemaPath:"#/properties/filter/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/filter",schemaPath:"\
#/properties/filter/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.developer!==void 0){let r=s.developer;if(typeof r=="string"){
if(y(r)>200){let i={instancePath:n+"/developer",schemaPath:"#/properties/developer/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:n+"/developer",schemaPath:"#/properties/developer/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,
schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return N.errors=e,t===0}function v(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r===
"caption"||r==="keywords"||r==="creator"||r==="copyright")){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[i]:e.push(i),t++}if(s.caption!==void 0){let r=s.caption;if(typeof r=="string"){if(y(r)>2e3){let i={instancePath:n+"/caption",schemaPath:"#/propertie\
s/caption/maxLength",keyword:"maxLength",params:{limit:2e3}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/caption",schemaPath:"#/properties/captio\
n/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.keywords!==void 0){let r=s.keywords;if(Array.isArray(r)){if(r.length>100){let a={
instancePath:n+"/keywords",schemaPath:"#/properties/keywords/maxItems",keyword:"maxItems",params:{limit:100}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<
i;a++){let m=r[a];if(typeof m=="string"){if(y(m)>64){let p={instancePath:n+"/keywords/"+a,schemaPath:"#/properties/keywords/items/maxLength",keyword:"maxLength",
params:{limit:64}};e===null?e=[p]:e.push(p),t++}if(y(m)<1){let p={instancePath:n+"/keywords/"+a,schemaPath:"#/properties/keywords/items/minLength",keyword:"minL\
ength",params:{limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:n+"/keywords/"+a,schemaPath:"#/properties/keywords/items/type",keyword:"type",params:{
type:"string"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:n+"/keywords",schemaPath:"#/properties/keywords/type",keyword:"type",params:{type:"array"}};
e===null?e=[i]:e.push(i),t++}}if(s.creator!==void 0){let r=s.creator;if(typeof r=="string"){if(y(r)>200){let i={instancePath:n+"/creator",schemaPath:"#/properti\
es/creator/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/creator",schemaPath:"#/properties/creat\
or/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.copyright!==void 0){let r=s.copyright;if(typeof r=="string"){if(y(r)>200){let i={
instancePath:n+"/copyright",schemaPath:"#/properties/copyright/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+
"/copyright",schemaPath:"#/properties/copyright/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,schemaPath:"\
#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return v.errors=e,t===0}var Q={type:"object",additionalProperties:!1,properties:{blank:{
type:"string",minLength:1},flare:{type:["number","array"],minimum:0,maximum:.2,items:{type:"number",minimum:0,maximum:.2},minItems:3,maxItems:3},times:{enum:["w\
ritten","nominal"]},spots:{$ref:"#/definitions/spots"}}};var ne={type:["array","object"],minItems:3,maxItems:3,items:[{type:"number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:4},{type:"number",minimum:1e-5,
maximum:.1}],required:["line","width"],additionalProperties:!1,properties:{line:{type:"array",minItems:2,maxItems:200,items:{type:"array",minItems:2,maxItems:2,
items:[{type:"number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:4}]}},width:{type:"number",minimum:2e-5,maximum:.05}}};function F(s,{instancePath:n="",
parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(!s||typeof s!="object"){let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:ne.
type}};e===null?e=[r]:e.push(r),t++}if(Array.isArray(s)){if(s.length>3){let i={instancePath:n,schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?
e=[i]:e.push(i),t++}if(s.length<3){let i={instancePath:n,schemaPath:"#/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[i]:e.push(i),t++}let r=s.length;
if(r>0){let i=s[0];if(typeof i=="number"&&isFinite(i)){if(i>1||isNaN(i)){let a={instancePath:n+"/0",schemaPath:"#/items/0/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:1}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:n+"/0",schemaPath:"#/items/0/minimum",keyword:"minimum",params:{comparison:">=",
limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:n+"/0",schemaPath:"#/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(
a),t++}}if(r>1){let i=s[1];if(typeof i=="number"&&isFinite(i)){if(i>4||isNaN(i)){let a={instancePath:n+"/1",schemaPath:"#/items/1/maximum",keyword:"maximum",params:{
comparison:"<=",limit:4}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:n+"/1",schemaPath:"#/items/1/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:n+"/1",schemaPath:"#/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.
push(a),t++}}if(r>2){let i=s[2];if(typeof i=="number"&&isFinite(i)){if(i>.1||isNaN(i)){let a={instancePath:n+"/2",schemaPath:"#/items/2/maximum",keyword:"maximu\
m",params:{comparison:"<=",limit:.1}};e===null?e=[a]:e.push(a),t++}if(i<1e-5||isNaN(i)){let a={instancePath:n+"/2",schemaPath:"#/items/2/minimum",keyword:"minim\
um",params:{comparison:">=",limit:1e-5}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:n+"/2",schemaPath:"#/items/2/type",keyword:"type",params:{type:"\
number"}};e===null?e=[a]:e.push(a),t++}}}if(s&&typeof s=="object"&&!Array.isArray(s)){if(s.line===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"\
required",params:{missingProperty:"line"}};e===null?e=[r]:e.push(r),t++}if(s.width===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"required",params:{
missingProperty:"width"}};e===null?e=[r]:e.push(r),t++}for(let r in s)if(!(r==="line"||r==="width")){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"\
additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.line!==void 0){let r=s.line;if(Array.isArray(r)){if(r.length>200){let a={
instancePath:n+"/line",schemaPath:"#/properties/line/maxItems",keyword:"maxItems",params:{limit:200}};e===null?e=[a]:e.push(a),t++}if(r.length<2){let a={instancePath:n+
"/line",schemaPath:"#/properties/line/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];
if(Array.isArray(m)){if(m.length>2){let l={instancePath:n+"/line/"+a,schemaPath:"#/properties/line/items/maxItems",keyword:"maxItems",params:{limit:2}};e===null?
e=[l]:e.push(l),t++}if(m.length<2){let l={instancePath:n+"/line/"+a,schemaPath:"#/properties/line/items/minItems",keyword:"minItems",params:{limit:2}};e===null?
e=[l]:e.push(l),t++}let p=m.length;if(p>0){let l=m[0];if(typeof l=="number"&&isFinite(l)){if(l>1||isNaN(l)){let u={instancePath:n+"/line/"+a+"/0",schemaPath:"#/\
properties/line/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:n+
"/line/"+a+"/0",schemaPath:"#/properties/line/items/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={
instancePath:n+"/line/"+a+"/0",schemaPath:"#/properties/line/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=m[1];
if(typeof l=="number"&&isFinite(l)){if(l>4||isNaN(l)){let u={instancePath:n+"/line/"+a+"/1",schemaPath:"#/properties/line/items/items/1/maximum",keyword:"maximu\
m",params:{comparison:"<=",limit:4}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:n+"/line/"+a+"/1",schemaPath:"#/properties/line/items/it\
ems/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:n+"/line/"+a+"/1",schemaPath:"#/proper\
ties/line/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}}else{let p={instancePath:n+"/line/"+a,schemaPath:"#/properti\
es/line/items/type",keyword:"type",params:{type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:n+"/line",schemaPath:"#/properties/line/type",
keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.width!==void 0){let r=s.width;if(typeof r=="number"&&isFinite(r)){if(r>.05||isNaN(r)){let i={
instancePath:n+"/width",schemaPath:"#/properties/width/maximum",keyword:"maximum",params:{comparison:"<=",limit:.05}};e===null?e=[i]:e.push(i),t++}if(r<2e-5||isNaN(
r)){let i={instancePath:n+"/width",schemaPath:"#/properties/width/minimum",keyword:"minimum",params:{comparison:">=",limit:2e-5}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:n+"/width",schemaPath:"#/properties/width/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}}return F.errors=e,t===
0}function D(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(Array.isArray(s)){if(s.length>5e3){let i={instancePath:n,
schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:5e3}};e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++)F(s[i],{instancePath:n+"/"+i,parentData:s,
parentDataProperty:i,rootData:o})||(e=e===null?F.errors:e.concat(F.errors),t=e.length)}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"\
array"}};e===null?e=[r]:e.push(r),t++}return D.errors=e,t===0}function I(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;
if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r==="blank"||r==="flare"||r==="times"||r==="spots")){let i={instancePath:n,schemaPath:"#/additi\
onalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.blank!==void 0){let r=s.blank;if(typeof r=="stri\
ng"){if(y(r)<1){let i={instancePath:n+"/blank",schemaPath:"#/properties/blank/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:n+"/blank",schemaPath:"#/properties/blank/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.flare!==void 0){let r=s.
flare;if(!(typeof r=="number"&&isFinite(r))&&!Array.isArray(r)){let i={instancePath:n+"/flare",schemaPath:"#/properties/flare/type",keyword:"type",params:{type:Q.
properties.flare.type}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>.2||isNaN(r)){let i={instancePath:n+"/flare",schemaPath:"#/propert\
ies/flare/maximum",keyword:"maximum",params:{comparison:"<=",limit:.2}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:n+"/flare",schemaPath:"\
#/properties/flare/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.length>3){let a={instancePath:n+
"/flare",schemaPath:"#/properties/flare/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<3){let a={instancePath:n+"/flare",
schemaPath:"#/properties/flare/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m==
"number"&&isFinite(m)){if(m>.2||isNaN(m)){let p={instancePath:n+"/flare/"+a,schemaPath:"#/properties/flare/items/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:.2}};e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={instancePath:n+"/flare/"+a,schemaPath:"#/properties/flare/items/minimum",keyword:"minimum",
params:{comparison:">=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:n+"/flare/"+a,schemaPath:"#/properties/flare/items/type",keyword:"type",
params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}}if(s.times!==void 0){let r=s.times;if(!(r==="written"||r==="nominal")){let i={instancePath:n+"/times",schemaPath:"\
#/properties/times/enum",keyword:"enum",params:{allowedValues:Q.properties.times.enum}};e===null?e=[i]:e.push(i),t++}}s.spots!==void 0&&(D(s.spots,{instancePath:n+
"/spots",parentData:s,parentDataProperty:"spots",rootData:o})||(e=e===null?D.errors:e.concat(D.errors),t=e.length))}else{let r={instancePath:n,schemaPath:"#/typ\
e",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return I.errors=e,t===0}var ae={type:"object",additionalProperties:!1,properties:{base:{$ref:"\
#/definitions/base"},gamma:{type:["number","array"],minimum:.1,maximum:3,items:{type:"number",minimum:.1,maximum:3},minItems:3,maxItems:3},curve:{$ref:"#/defini\
tions/filmCurve"},unmix:{type:"array",minItems:3,maxItems:3,items:{$ref:"#/definitions/unmixRow"}},colour:{type:"array",minItems:3,maxItems:3,items:{$ref:"#/def\
initions/colourRow"}}}};var me={type:"object",additionalProperties:!1,required:["scan"],properties:{scan:{type:"string",minLength:1},area:{type:"array",minItems:4,maxItems:4,items:[{type:"\
number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:1},{type:"number",minimum:1e-4,maximum:1},{type:"number",minimum:1e-4,maximum:1}]},scatter:{type:[
"number","array"],minimum:0,maximum:2,items:{type:"number",minimum:0,maximum:2},minItems:3,maxItems:3}}};function q(s,{instancePath:n="",parentData:h,parentDataProperty:c,
rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){if(s.scan===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"require\
d",params:{missingProperty:"scan"}};e===null?e=[r]:e.push(r),t++}for(let r in s)if(!(r==="scan"||r==="area"||r==="scatter")){let i={instancePath:n,schemaPath:"#\
/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.scan!==void 0){let r=s.scan;if(typeof r==
"string"){if(y(r)<1){let i={instancePath:n+"/scan",schemaPath:"#/properties/scan/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:n+"/scan",schemaPath:"#/properties/scan/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.area!==void 0){let r=s.
area;if(Array.isArray(r)){if(r.length>4){let a={instancePath:n+"/area",schemaPath:"#/properties/area/maxItems",keyword:"maxItems",params:{limit:4}};e===null?e=[
a]:e.push(a),t++}if(r.length<4){let a={instancePath:n+"/area",schemaPath:"#/properties/area/minItems",keyword:"minItems",params:{limit:4}};e===null?e=[a]:e.push(
a),t++}let i=r.length;if(i>0){let a=r[0];if(typeof a=="number"&&isFinite(a)){if(a>1||isNaN(a)){let m={instancePath:n+"/area/0",schemaPath:"#/properties/area/ite\
ms/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.push(m),t++}if(a<0||isNaN(a)){let m={instancePath:n+"/area/0",schemaPath:"#/p\
roperties/area/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/area/0",schemaPath:"\
#/properties/area/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(i>1){let a=r[1];if(typeof a=="number"&&isFinite(a)){if(a>
1||isNaN(a)){let m={instancePath:n+"/area/1",schemaPath:"#/properties/area/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.
push(m),t++}if(a<0||isNaN(a)){let m={instancePath:n+"/area/1",schemaPath:"#/properties/area/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};
e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/area/1",schemaPath:"#/properties/area/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=
[m]:e.push(m),t++}}if(i>2){let a=r[2];if(typeof a=="number"&&isFinite(a)){if(a>1||isNaN(a)){let m={instancePath:n+"/area/2",schemaPath:"#/properties/area/items/\
2/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.push(m),t++}if(a<1e-4||isNaN(a)){let m={instancePath:n+"/area/2",schemaPath:"#/p\
roperties/area/items/2/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-4}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/area/2",schemaPath:"\
#/properties/area/items/2/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(i>3){let a=r[3];if(typeof a=="number"&&isFinite(a)){if(a>
1||isNaN(a)){let m={instancePath:n+"/area/3",schemaPath:"#/properties/area/items/3/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.
push(m),t++}if(a<1e-4||isNaN(a)){let m={instancePath:n+"/area/3",schemaPath:"#/properties/area/items/3/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-4}};
e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/area/3",schemaPath:"#/properties/area/items/3/type",keyword:"type",params:{type:"number"}};e===null?e=
[m]:e.push(m),t++}}}else{let i={instancePath:n+"/area",schemaPath:"#/properties/area/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.
scatter!==void 0){let r=s.scatter;if(!(typeof r=="number"&&isFinite(r))&&!Array.isArray(r)){let i={instancePath:n+"/scatter",schemaPath:"#/properties/scatter/ty\
pe",keyword:"type",params:{type:me.properties.scatter.type}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>2||isNaN(r)){let i={instancePath:n+
"/scatter",schemaPath:"#/properties/scatter/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:n+
"/scatter",schemaPath:"#/properties/scatter/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.
length>3){let a={instancePath:n+"/scatter",schemaPath:"#/properties/scatter/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<
3){let a={instancePath:n+"/scatter",schemaPath:"#/properties/scatter/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;
for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>2||isNaN(m)){let p={instancePath:n+"/scatter/"+a,schemaPath:"#/properties/scatter/items\
/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={instancePath:n+"/scatter/"+a,schemaPath:"#/p\
roperties/scatter/items/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:n+"/scatter/"+a,schemaPath:"\
#/properties/scatter/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"\
type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return q.errors=e,t===0}function E(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){
let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r==="density"||r==="read")){let i={instancePath:n,schemaPath:"#/additionalProper\
ties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.density!==void 0){let r=s.density;if(Array.isArray(r)){if(r.
length>3){let a={instancePath:n+"/density",schemaPath:"#/properties/density/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<
3){let a={instancePath:n+"/density",schemaPath:"#/properties/density/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;
for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>5||isNaN(m)){let p={instancePath:n+"/density/"+a,schemaPath:"#/properties/density/items\
/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[p]:e.push(p),t++}if(m<-1||isNaN(m)){let p={instancePath:n+"/density/"+a,schemaPath:"#/\
properties/density/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:n+"/density/"+a,schemaPath:"\
#/properties/density/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:n+"/density",schemaPath:"#/prope\
rties/density/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}s.read!==void 0&&(q(s.read,{instancePath:n+"/read",parentData:s,parentDataProperty:"\
read",rootData:o})||(e=e===null?q.errors:e.concat(q.errors),t=e.length))}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===
null?e=[r]:e.push(r),t++}return E.errors=e,t===0}function d(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(Array.isArray(s)){if(s.length>256){let i={instancePath:n,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:256}};e===null?e=[i]:e.push(i),t++}if(s.length<2){let i={instancePath:n,schemaPath:"#/minItems",keyword:"minItems",
params:{limit:2}};e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++){let a=s[i];if(typeof a=="number"&&isFinite(a)){if(a>6||isNaN(a)){let m={instancePath:n+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:6}};e===null?e=[m]:e.push(m),t++}if(a<-1||isNaN(a)){let m={instancePath:n+"/"+
i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/"+i,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[r]:e.push(r),t++}return d.errors=e,t===0}function z(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;
if(s&&typeof s=="object"&&!Array.isArray(s)){if(s.logH===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"required",params:{missingProperty:"logH"}};
e===null?e=[r]:e.push(r),t++}for(let r in s)if(!(r==="logH"||r==="red"||r==="green"||r==="blue"||r==="density"||r==="mid")){let i={instancePath:n,schemaPath:"#/\
additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.logH!==void 0){let r=s.logH;if(Array.isArray(
r)){if(r.length>256){let a={instancePath:n+"/logH",schemaPath:"#/properties/logH/maxItems",keyword:"maxItems",params:{limit:256}};e===null?e=[a]:e.push(a),t++}if(r.
length<2){let a={instancePath:n+"/logH",schemaPath:"#/properties/logH/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}let i=r.length;
for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>8||isNaN(m)){let p={instancePath:n+"/logH/"+a,schemaPath:"#/properties/logH/items/maxim\
um",keyword:"maximum",params:{comparison:"<=",limit:8}};e===null?e=[p]:e.push(p),t++}if(m<-8||isNaN(m)){let p={instancePath:n+"/logH/"+a,schemaPath:"#/propertie\
s/logH/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-8}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:n+"/logH/"+a,schemaPath:"#/pro\
perties/logH/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:n+"/logH",schemaPath:"#/properties/logH/\
type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.red!==void 0&&(d(s.red,{instancePath:n+"/red",parentData:s,parentDataProperty:"re\
d",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),s.green!==void 0&&(d(s.green,{instancePath:n+"/green",parentData:s,parentDataProperty:"gre\
en",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),s.blue!==void 0&&(d(s.blue,{instancePath:n+"/blue",parentData:s,parentDataProperty:"blue",
rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),s.density!==void 0&&(d(s.density,{instancePath:n+"/density",parentData:s,parentDataProperty:"\
density",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),s.mid!==void 0){let r=s.mid;if(typeof r=="number"&&isFinite(r)){if(r>8||isNaN(r)){let i={
instancePath:n+"/mid",schemaPath:"#/properties/mid/maximum",keyword:"maximum",params:{comparison:"<=",limit:8}};e===null?e=[i]:e.push(i),t++}if(r<-8||isNaN(r)){
let i={instancePath:n+"/mid",schemaPath:"#/properties/mid/minimum",keyword:"minimum",params:{comparison:">=",limit:-8}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:n+"/mid",schemaPath:"#/properties/mid/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,schemaPath:"\
#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return z.errors=e,t===0}function H(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(Array.isArray(s)){if(s.length>3){let i={instancePath:n,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[i]:e.push(i),t++}if(s.length<3){let i={instancePath:n,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:3}};e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++){let a=s[i];if(typeof a=="number"&&isFinite(a)){if(a>4||isNaN(a)){let m={instancePath:n+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[m]:e.push(m),t++}if(a<-4||isNaN(a)){let m={instancePath:n+"/"+
i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-4}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/"+i,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[r]:e.push(r),t++}return H.errors=e,t===0}function R(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(Array.isArray(s)){if(s.length>3){let i={instancePath:n,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[i]:e.push(i),t++}if(s.length<3){let i={instancePath:n,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:3}};e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++){let a=s[i];if(typeof a=="number"&&isFinite(a)){if(a>5||isNaN(a)){let m={instancePath:n+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[m]:e.push(m),t++}if(a<-5||isNaN(a)){let m={instancePath:n+"/"+
i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:n+"/"+i,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[r]:e.push(r),t++}return R.errors=e,t===0}function P(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;
if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r==="base"||r==="gamma"||r==="curve"||r==="unmix"||r==="colour")){let i={instancePath:n,schemaPath:"\
#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.base!==void 0&&(E(s.base,{instancePath:n+
"/base",parentData:s,parentDataProperty:"base",rootData:o})||(e=e===null?E.errors:e.concat(E.errors),t=e.length)),s.gamma!==void 0){let r=s.gamma;if(!(typeof r==
"number"&&isFinite(r))&&!Array.isArray(r)){let i={instancePath:n+"/gamma",schemaPath:"#/properties/gamma/type",keyword:"type",params:{type:ae.properties.gamma.type}};
e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>3||isNaN(r)){let i={instancePath:n+"/gamma",schemaPath:"#/properties/gamma/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:3}};e===null?e=[i]:e.push(i),t++}if(r<.1||isNaN(r)){let i={instancePath:n+"/gamma",schemaPath:"#/properties/gamma/minimum",
keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.length>3){let a={instancePath:n+"/gamma",schemaPath:"\
#/properties/gamma/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<3){let a={instancePath:n+"/gamma",schemaPath:"#/prope\
rties/gamma/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(
m)){if(m>3||isNaN(m)){let p={instancePath:n+"/gamma/"+a,schemaPath:"#/properties/gamma/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:3}};e===null?
e=[p]:e.push(p),t++}if(m<.1||isNaN(m)){let p={instancePath:n+"/gamma/"+a,schemaPath:"#/properties/gamma/items/minimum",keyword:"minimum",params:{comparison:">=",
limit:.1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:n+"/gamma/"+a,schemaPath:"#/properties/gamma/items/type",keyword:"type",params:{type:"number"}};
e===null?e=[p]:e.push(p),t++}}}}if(s.curve!==void 0&&(z(s.curve,{instancePath:n+"/curve",parentData:s,parentDataProperty:"curve",rootData:o})||(e=e===null?z.errors:
e.concat(z.errors),t=e.length)),s.unmix!==void 0){let r=s.unmix;if(Array.isArray(r)){if(r.length>3){let a={instancePath:n+"/unmix",schemaPath:"#/properties/unmi\
x/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<3){let a={instancePath:n+"/unmix",schemaPath:"#/properties/unmix/minIt\
ems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++)H(r[a],{instancePath:n+"/unmix/"+a,parentData:r,parentDataProperty:a,
rootData:o})||(e=e===null?H.errors:e.concat(H.errors),t=e.length)}else{let i={instancePath:n+"/unmix",schemaPath:"#/properties/unmix/type",keyword:"type",params:{
type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.colour!==void 0){let r=s.colour;if(Array.isArray(r)){if(r.length>3){let a={instancePath:n+"/colour",schemaPath:"\
#/properties/colour/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<3){let a={instancePath:n+"/colour",schemaPath:"#/pro\
perties/colour/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++)R(r[a],{instancePath:n+"/colour/"+
a,parentData:r,parentDataProperty:a,rootData:o})||(e=e===null?R.errors:e.concat(R.errors),t=e.length)}else{let i={instancePath:n+"/colour",schemaPath:"#/propert\
ies/colour/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"\
object"}};e===null?e=[r]:e.push(r),t++}return P.errors=e,t===0}var pe={type:"object",additionalProperties:!1,properties:{exposure:{type:"number",minimum:-10,maximum:10},
filtration:{$ref:"#/definitions/filtration"},contrast:{type:["number","string"],minimum:.2,maximum:5,pattern:"^(R([4-9][0-9]|1[0-9]{2}|2[0-4][0-9]|250)|grade (-\
1|[0-5]))$"},toe:{type:"number",minimum:0,maximum:1},shoulder:{type:"number",minimum:0,maximum:1},black:{type:"number",minimum:0,maximum:30},saturation:{type:"n\
umber",minimum:0,maximum:3},curve:{type:"array",maxItems:64,items:{type:"array",minItems:2,maxItems:2,items:[{type:"number",minimum:0,maximum:100},{type:"number",
minimum:0,maximum:100}]}}}};function V(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r===
"cyan"||r==="magenta"||r==="yellow")){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===
null?e=[i]:e.push(i),t++}if(s.cyan!==void 0){let r=s.cyan;if(typeof r=="number"&&isFinite(r)){if(r>200||isNaN(r)){let i={instancePath:n+"/cyan",schemaPath:"#/pr\
operties/cyan/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?e=[i]:e.push(i),t++}if(r<-200||isNaN(r)){let i={instancePath:n+"/cyan",schemaPath:"\
#/properties/cyan/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/cyan",schemaPath:"#\
/properties/cyan/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.magenta!==void 0){let r=s.magenta;if(typeof r=="number"&&isFinite(
r)){if(r>200||isNaN(r)){let i={instancePath:n+"/magenta",schemaPath:"#/properties/magenta/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?
e=[i]:e.push(i),t++}if(r<-200||isNaN(r)){let i={instancePath:n+"/magenta",schemaPath:"#/properties/magenta/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/magenta",schemaPath:"#/properties/magenta/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:
e.push(i),t++}}if(s.yellow!==void 0){let r=s.yellow;if(typeof r=="number"&&isFinite(r)){if(r>200||isNaN(r)){let i={instancePath:n+"/yellow",schemaPath:"#/proper\
ties/yellow/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?e=[i]:e.push(i),t++}if(r<-200||isNaN(r)){let i={instancePath:n+"/yellow",schemaPath:"\
#/properties/yellow/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/yellow",schemaPath:"\
#/properties/yellow/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[r]:e.push(r),t++}return V.errors=e,t===0}var oe=new RegExp("^(R([4-9][0-9]|1[0-9]{2}|2[0-4][0-9]|250)|grade (-1|[0-5]))$","u");function g(s,{
instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r==="expos\
ure"||r==="filtration"||r==="contrast"||r==="toe"||r==="shoulder"||r==="black"||r==="saturation"||r==="curve")){let i={instancePath:n,schemaPath:"#/additionalPr\
operties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.exposure!==void 0){let r=s.exposure;if(typeof r=="numb\
er"&&isFinite(r)){if(r>10||isNaN(r)){let i={instancePath:n+"/exposure",schemaPath:"#/properties/exposure/maximum",keyword:"maximum",params:{comparison:"<=",limit:10}};
e===null?e=[i]:e.push(i),t++}if(r<-10||isNaN(r)){let i={instancePath:n+"/exposure",schemaPath:"#/properties/exposure/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:-10}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/exposure",schemaPath:"#/properties/exposure/type",keyword:"type",params:{type:"number"}};
e===null?e=[i]:e.push(i),t++}}if(s.filtration!==void 0&&(V(s.filtration,{instancePath:n+"/filtration",parentData:s,parentDataProperty:"filtration",rootData:o})||
(e=e===null?V.errors:e.concat(V.errors),t=e.length)),s.contrast!==void 0){let r=s.contrast;if(!(typeof r=="number"&&isFinite(r))&&typeof r!="string"){let i={instancePath:n+
"/contrast",schemaPath:"#/properties/contrast/type",keyword:"type",params:{type:pe.properties.contrast.type}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&
isFinite(r)){if(r>5||isNaN(r)){let i={instancePath:n+"/contrast",schemaPath:"#/properties/contrast/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};
e===null?e=[i]:e.push(i),t++}if(r<.2||isNaN(r)){let i={instancePath:n+"/contrast",schemaPath:"#/properties/contrast/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:.2}};e===null?e=[i]:e.push(i),t++}}if(typeof r=="string"&&!oe.test(r)){let i={instancePath:n+"/contrast",schemaPath:"#/properties/contrast/pattern",keyword:"\
pattern",params:{pattern:"^(R([4-9][0-9]|1[0-9]{2}|2[0-4][0-9]|250)|grade (-1|[0-5]))$"}};e===null?e=[i]:e.push(i),t++}}if(s.toe!==void 0){let r=s.toe;if(typeof r==
"number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:n+"/toe",schemaPath:"#/properties/toe/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};
e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:n+"/toe",schemaPath:"#/properties/toe/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/toe",schemaPath:"#/properties/toe/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(
i),t++}}if(s.shoulder!==void 0){let r=s.shoulder;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:n+"/shoulder",schemaPath:"#/propertie\
s/shoulder/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:n+"/shoulder",schemaPath:"\
#/properties/shoulder/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/shoulder",schemaPath:"\
#/properties/shoulder/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.black!==void 0){let r=s.black;if(typeof r=="number"&&isFinite(
r)){if(r>30||isNaN(r)){let i={instancePath:n+"/black",schemaPath:"#/properties/black/maximum",keyword:"maximum",params:{comparison:"<=",limit:30}};e===null?e=[i]:
e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:n+"/black",schemaPath:"#/properties/black/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?
e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/black",schemaPath:"#/properties/black/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}
if(s.saturation!==void 0){let r=s.saturation;if(typeof r=="number"&&isFinite(r)){if(r>3||isNaN(r)){let i={instancePath:n+"/saturation",schemaPath:"#/properties/\
saturation/maximum",keyword:"maximum",params:{comparison:"<=",limit:3}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:n+"/saturation",schemaPath:"\
#/properties/saturation/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/saturation",schemaPath:"\
#/properties/saturation/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.curve!==void 0){let r=s.curve;if(Array.isArray(r)){if(r.
length>64){let a={instancePath:n+"/curve",schemaPath:"#/properties/curve/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[a]:e.push(a),t++}let i=r.length;
for(let a=0;a<i;a++){let m=r[a];if(Array.isArray(m)){if(m.length>2){let l={instancePath:n+"/curve/"+a,schemaPath:"#/properties/curve/items/maxItems",keyword:"ma\
xItems",params:{limit:2}};e===null?e=[l]:e.push(l),t++}if(m.length<2){let l={instancePath:n+"/curve/"+a,schemaPath:"#/properties/curve/items/minItems",keyword:"\
minItems",params:{limit:2}};e===null?e=[l]:e.push(l),t++}let p=m.length;if(p>0){let l=m[0];if(typeof l=="number"&&isFinite(l)){if(l>100||isNaN(l)){let u={instancePath:n+
"/curve/"+a+"/0",schemaPath:"#/properties/curve/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};e===null?e=[u]:e.push(u),t++}if(l<0||
isNaN(l)){let u={instancePath:n+"/curve/"+a+"/0",schemaPath:"#/properties/curve/items/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?
e=[u]:e.push(u),t++}}else{let u={instancePath:n+"/curve/"+a+"/0",schemaPath:"#/properties/curve/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?
e=[u]:e.push(u),t++}}if(p>1){let l=m[1];if(typeof l=="number"&&isFinite(l)){if(l>100||isNaN(l)){let u={instancePath:n+"/curve/"+a+"/1",schemaPath:"#/properties/\
curve/items/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:n+"/curve/"+
a+"/1",schemaPath:"#/properties/curve/items/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:n+
"/curve/"+a+"/1",schemaPath:"#/properties/curve/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}}else{let p={instancePath:n+
"/curve/"+a,schemaPath:"#/properties/curve/items/type",keyword:"type",params:{type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:n+"/curve",
schemaPath:"#/properties/curve/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"\
type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return g.errors=e,t===0}var $={type:"object",additionalProperties:!1,required:["name","type"],properties:{name:{type:"string",pattern:"^[A-Za-z0-9][A-Za-z0-9 _.-]{0,62}$"},type:{enum:[
"tiff","jpeg","png","webp","avif"]},file:{type:"string",maxLength:120,pattern:'^(?:[^{}\\\\/:*?"<>|\\u0000-\\u001f\\u007f-\\u009f]|\\{(?:roll|frame|title|scan|output)\\\
})+$'},depth:{enum:[8,16]},quality:{type:"integer",minimum:1,maximum:100},space:{enum:["srgb","p3","adobe","romm"]},long:{type:"integer",minimum:16,maximum:6e4},
sharpen:{type:"number",minimum:0,maximum:1},compression:{enum:["none","deflate"]}}},le=new RegExp("^[A-Za-z0-9][A-Za-z0-9 _.-]{0,62}$","u"),ue=new RegExp('^(?:[\
^{}\\\\/:*?"<>|\\u0000-\\u001f\\u007f-\\u009f]|\\{(?:roll|frame|title|scan|output)\\})+$',"u");function Z(s,{instancePath:n="",parentData:h,parentDataProperty:c,
rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){if(s.name===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"require\
d",params:{missingProperty:"name"}};e===null?e=[r]:e.push(r),t++}if(s.type===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"required",params:{missingProperty:"\
type"}};e===null?e=[r]:e.push(r),t++}for(let r in s)if(!j.call($.properties,r)){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"additionalPro\
perties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.name!==void 0){let r=s.name;if(typeof r=="string"){if(!le.test(r)){let i={instancePath:n+
"/name",schemaPath:"#/properties/name/pattern",keyword:"pattern",params:{pattern:"^[A-Za-z0-9][A-Za-z0-9 _.-]{0,62}$"}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:n+"/name",schemaPath:"#/properties/name/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.type!==void 0){let r=s.type;
if(!(r==="tiff"||r==="jpeg"||r==="png"||r==="webp"||r==="avif")){let i={instancePath:n+"/type",schemaPath:"#/properties/type/enum",keyword:"enum",params:{allowedValues:$.
properties.type.enum}};e===null?e=[i]:e.push(i),t++}}if(s.file!==void 0){let r=s.file;if(typeof r=="string"){if(y(r)>120){let i={instancePath:n+"/file",schemaPath:"\
#/properties/file/maxLength",keyword:"maxLength",params:{limit:120}};e===null?e=[i]:e.push(i),t++}if(!ue.test(r)){let i={instancePath:n+"/file",schemaPath:"#/pr\
operties/file/pattern",keyword:"pattern",params:{pattern:'^(?:[^{}\\\\/:*?"<>|\\u0000-\\u001f\\u007f-\\u009f]|\\{(?:roll|frame|title|scan|output)\\})+$'}};e===null?
e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/file",schemaPath:"#/properties/file/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}
if(s.depth!==void 0){let r=s.depth;if(!(r===8||r===16)){let i={instancePath:n+"/depth",schemaPath:"#/properties/depth/enum",keyword:"enum",params:{allowedValues:$.
properties.depth.enum}};e===null?e=[i]:e.push(i),t++}}if(s.quality!==void 0){let r=s.quality;if(!(typeof r=="number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:n+
"/quality",schemaPath:"#/properties/quality/type",keyword:"type",params:{type:"integer"}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>
100||isNaN(r)){let i={instancePath:n+"/quality",schemaPath:"#/properties/quality/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};e===null?e=[i]:e.
push(i),t++}if(r<1||isNaN(r)){let i={instancePath:n+"/quality",schemaPath:"#/properties/quality/minimum",keyword:"minimum",params:{comparison:">=",limit:1}};e===
null?e=[i]:e.push(i),t++}}}if(s.space!==void 0){let r=s.space;if(!(r==="srgb"||r==="p3"||r==="adobe"||r==="romm")){let i={instancePath:n+"/space",schemaPath:"#/\
properties/space/enum",keyword:"enum",params:{allowedValues:$.properties.space.enum}};e===null?e=[i]:e.push(i),t++}}if(s.long!==void 0){let r=s.long;if(!(typeof r==
"number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:n+"/long",schemaPath:"#/properties/long/type",keyword:"type",params:{type:"integer"}};e===null?e=
[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>6e4||isNaN(r)){let i={instancePath:n+"/long",schemaPath:"#/properties/long/maximum",keyword:"maximum",
params:{comparison:"<=",limit:6e4}};e===null?e=[i]:e.push(i),t++}if(r<16||isNaN(r)){let i={instancePath:n+"/long",schemaPath:"#/properties/long/minimum",keyword:"\
minimum",params:{comparison:">=",limit:16}};e===null?e=[i]:e.push(i),t++}}}if(s.sharpen!==void 0){let r=s.sharpen;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(
r)){let i={instancePath:n+"/sharpen",schemaPath:"#/properties/sharpen/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}
if(r<0||isNaN(r)){let i={instancePath:n+"/sharpen",schemaPath:"#/properties/sharpen/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:
e.push(i),t++}}else{let i={instancePath:n+"/sharpen",schemaPath:"#/properties/sharpen/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}
if(s.compression!==void 0){let r=s.compression;if(!(r==="none"||r==="deflate")){let i={instancePath:n+"/compression",schemaPath:"#/properties/compression/enum",
keyword:"enum",params:{allowedValues:$.properties.compression.enum}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",
params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return Z.errors=e,t===0}function A(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){
let e=null,t=0;if(Array.isArray(s)){if(s.length>32){let i={instancePath:n,schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:32}};e===null?e=[i]:e.push(i),
t++}let r=s.length;for(let i=0;i<r;i++)Z(s[i],{instancePath:n+"/"+i,parentData:s,parentDataProperty:i,rootData:o})||(e=e===null?Z.errors:e.concat(Z.errors),t=e.
length)}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}return A.errors=e,t===0}var L={type:"o\
bject",additionalProperties:!1,properties:{scan:{type:"string",minLength:1},scans:{type:"array",minItems:1,maxItems:64,items:{type:"string",minLength:1}},unused:{
type:"array",minItems:1,maxItems:64,items:{type:"string",minLength:1}},join:{type:"array",minItems:1,maxItems:64,items:{type:"array",minItems:3,maxItems:3,items:[
{type:"number",minimum:-2e5,maximum:2e5},{type:"number",minimum:-2e5,maximum:2e5},{type:"number",minimum:-45,maximum:45}]}},area:{$ref:"#/definitions/frameArea"},
turn:{enum:[0,90,180,270]},mirror:{type:"boolean"},skip:{type:"boolean"},choice:{enum:["keep","reject"]},rank:{enum:[1,2,3,4,5]},light:{$ref:"#/definitions/ligh\
t"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/positive"},spots:{$ref:"#/definitions/spots"},title:{type:"string",maxLength:200},exposed:{
$ref:"#/definitions/exposed"},iptc:{$ref:"#/definitions/iptc"},note:{$ref:"#/definitions/note"}}};function _(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r===
"left"||r==="top"||r==="width"||r==="height"||r==="tilt")){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[i]:e.push(i),t++}if(s.left!==void 0){let r=s.left;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:n+"/left",schemaPath:"#/\
properties/left/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:n+"/left",schemaPath:"\
#/properties/left/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/left",schemaPath:"#/pr\
operties/left/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.top!==void 0){let r=s.top;if(typeof r=="number"&&isFinite(r)){if(r>
1||isNaN(r)){let i={instancePath:n+"/top",schemaPath:"#/properties/top/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}
if(r<0||isNaN(r)){let i={instancePath:n+"/top",schemaPath:"#/properties/top/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),
t++}}else{let i={instancePath:n+"/top",schemaPath:"#/properties/top/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.width!==void 0){
let r=s.width;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:n+"/width",schemaPath:"#/properties/width/maximum",keyword:"maximum",params:{
comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<.001||isNaN(r)){let i={instancePath:n+"/width",schemaPath:"#/properties/width/minimum",keyword:"mini\
mum",params:{comparison:">=",limit:.001}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/width",schemaPath:"#/properties/width/type",keyword:"type",
params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.height!==void 0){let r=s.height;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:n+
"/height",schemaPath:"#/properties/height/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<.001||isNaN(r)){let i={
instancePath:n+"/height",schemaPath:"#/properties/height/minimum",keyword:"minimum",params:{comparison:">=",limit:.001}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:n+"/height",schemaPath:"#/properties/height/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.tilt!==void 0){let r=s.
tilt;if(typeof r=="number"&&isFinite(r)){if(r>45||isNaN(r)){let i={instancePath:n+"/tilt",schemaPath:"#/properties/tilt/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:45}};e===null?e=[i]:e.push(i),t++}if(r<-45||isNaN(r)){let i={instancePath:n+"/tilt",schemaPath:"#/properties/tilt/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:-45}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/tilt",schemaPath:"#/properties/tilt/type",keyword:"type",params:{type:"number"}};e===
null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return _.errors=e,
t===0}function k(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(typeof s=="string"){if(y(s)>2e4){let r={instancePath:n,schemaPath:"\
#/maxLength",keyword:"maxLength",params:{limit:2e4}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"s\
tring"}};e===null?e=[r]:e.push(r),t++}return k.errors=e,t===0}function C(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;
if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!j.call(L.properties,r)){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"addit\
ionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.scan!==void 0){let r=s.scan;if(typeof r=="string"){if(y(r)<1){let i={instancePath:n+
"/scan",schemaPath:"#/properties/scan/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/scan",schemaPath:"\
#/properties/scan/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.scans!==void 0){let r=s.scans;if(Array.isArray(r)){if(r.length>
64){let a={instancePath:n+"/scans",schemaPath:"#/properties/scans/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[a]:e.push(a),t++}if(r.length<1){let a={
instancePath:n+"/scans",schemaPath:"#/properties/scans/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<
i;a++){let m=r[a];if(typeof m=="string"){if(y(m)<1){let p={instancePath:n+"/scans/"+a,schemaPath:"#/properties/scans/items/minLength",keyword:"minLength",params:{
limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:n+"/scans/"+a,schemaPath:"#/properties/scans/items/type",keyword:"type",params:{type:"string"}};
e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:n+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(
i),t++}}if(s.unused!==void 0){let r=s.unused;if(Array.isArray(r)){if(r.length>64){let a={instancePath:n+"/unused",schemaPath:"#/properties/unused/maxItems",keyword:"\
maxItems",params:{limit:64}};e===null?e=[a]:e.push(a),t++}if(r.length<1){let a={instancePath:n+"/unused",schemaPath:"#/properties/unused/minItems",keyword:"minI\
tems",params:{limit:1}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m=="string"){if(y(m)<1){let p={instancePath:n+"/un\
used/"+a,schemaPath:"#/properties/unused/items/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:n+"/unuse\
d/"+a,schemaPath:"#/properties/unused/items/type",keyword:"type",params:{type:"string"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:n+"/unused",schemaPath:"\
#/properties/unused/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.join!==void 0){let r=s.join;if(Array.isArray(r)){if(r.length>
64){let a={instancePath:n+"/join",schemaPath:"#/properties/join/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[a]:e.push(a),t++}if(r.length<1){let a={
instancePath:n+"/join",schemaPath:"#/properties/join/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){
let m=r[a];if(Array.isArray(m)){if(m.length>3){let l={instancePath:n+"/join/"+a,schemaPath:"#/properties/join/items/maxItems",keyword:"maxItems",params:{limit:3}};
e===null?e=[l]:e.push(l),t++}if(m.length<3){let l={instancePath:n+"/join/"+a,schemaPath:"#/properties/join/items/minItems",keyword:"minItems",params:{limit:3}};
e===null?e=[l]:e.push(l),t++}let p=m.length;if(p>0){let l=m[0];if(typeof l=="number"&&isFinite(l)){if(l>2e5||isNaN(l)){let u={instancePath:n+"/join/"+a+"/0",schemaPath:"\
#/properties/join/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:2e5}};e===null?e=[u]:e.push(u),t++}if(l<-2e5||isNaN(l)){let u={instancePath:n+
"/join/"+a+"/0",schemaPath:"#/properties/join/items/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:-2e5}};e===null?e=[u]:e.push(u),t++}}else{let u={
instancePath:n+"/join/"+a+"/0",schemaPath:"#/properties/join/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=m[1];
if(typeof l=="number"&&isFinite(l)){if(l>2e5||isNaN(l)){let u={instancePath:n+"/join/"+a+"/1",schemaPath:"#/properties/join/items/items/1/maximum",keyword:"maxi\
mum",params:{comparison:"<=",limit:2e5}};e===null?e=[u]:e.push(u),t++}if(l<-2e5||isNaN(l)){let u={instancePath:n+"/join/"+a+"/1",schemaPath:"#/properties/join/i\
tems/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:-2e5}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:n+"/join/"+a+"/1",schemaPath:"\
#/properties/join/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>2){let l=m[2];if(typeof l=="number"&&isFinite(l)){
if(l>45||isNaN(l)){let u={instancePath:n+"/join/"+a+"/2",schemaPath:"#/properties/join/items/items/2/maximum",keyword:"maximum",params:{comparison:"<=",limit:45}};
e===null?e=[u]:e.push(u),t++}if(l<-45||isNaN(l)){let u={instancePath:n+"/join/"+a+"/2",schemaPath:"#/properties/join/items/items/2/minimum",keyword:"minimum",params:{
comparison:">=",limit:-45}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:n+"/join/"+a+"/2",schemaPath:"#/properties/join/items/items/2/type",keyword:"\
type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}}else{let p={instancePath:n+"/join/"+a,schemaPath:"#/properties/join/items/type",keyword:"type",params:{
type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:n+"/join",schemaPath:"#/properties/join/type",keyword:"type",params:{type:"array"}};e===null?
e=[i]:e.push(i),t++}}if(s.area!==void 0&&(_(s.area,{instancePath:n+"/area",parentData:s,parentDataProperty:"area",rootData:o})||(e=e===null?_.errors:e.concat(_.
errors),t=e.length)),s.turn!==void 0){let r=s.turn;if(!(r===0||r===90||r===180||r===270)){let i={instancePath:n+"/turn",schemaPath:"#/properties/turn/enum",keyword:"\
enum",params:{allowedValues:L.properties.turn.enum}};e===null?e=[i]:e.push(i),t++}}if(s.mirror!==void 0&&typeof s.mirror!="boolean"){let r={instancePath:n+"/mir\
ror",schemaPath:"#/properties/mirror/type",keyword:"type",params:{type:"boolean"}};e===null?e=[r]:e.push(r),t++}if(s.skip!==void 0&&typeof s.skip!="boolean"){let r={
instancePath:n+"/skip",schemaPath:"#/properties/skip/type",keyword:"type",params:{type:"boolean"}};e===null?e=[r]:e.push(r),t++}if(s.choice!==void 0){let r=s.choice;
if(!(r==="keep"||r==="reject")){let i={instancePath:n+"/choice",schemaPath:"#/properties/choice/enum",keyword:"enum",params:{allowedValues:L.properties.choice.enum}};
e===null?e=[i]:e.push(i),t++}}if(s.rank!==void 0){let r=s.rank;if(!(r===1||r===2||r===3||r===4||r===5)){let i={instancePath:n+"/rank",schemaPath:"#/properties/r\
ank/enum",keyword:"enum",params:{allowedValues:L.properties.rank.enum}};e===null?e=[i]:e.push(i),t++}}if(s.light!==void 0&&(I(s.light,{instancePath:n+"/light",parentData:s,
parentDataProperty:"light",rootData:o})||(e=e===null?I.errors:e.concat(I.errors),t=e.length)),s.negative!==void 0&&(P(s.negative,{instancePath:n+"/negative",parentData:s,
parentDataProperty:"negative",rootData:o})||(e=e===null?P.errors:e.concat(P.errors),t=e.length)),s.positive!==void 0&&(g(s.positive,{instancePath:n+"/positive",
parentData:s,parentDataProperty:"positive",rootData:o})||(e=e===null?g.errors:e.concat(g.errors),t=e.length)),s.spots!==void 0&&(D(s.spots,{instancePath:n+"/spo\
ts",parentData:s,parentDataProperty:"spots",rootData:o})||(e=e===null?D.errors:e.concat(D.errors),t=e.length)),s.title!==void 0){let r=s.title;if(typeof r=="str\
ing"){if(y(r)>200){let i={instancePath:n+"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:n+"/title",schemaPath:"#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}s.exposed!==void 0&&(N(
s.exposed,{instancePath:n+"/exposed",parentData:s,parentDataProperty:"exposed",rootData:o})||(e=e===null?N.errors:e.concat(N.errors),t=e.length)),s.iptc!==void 0&&
(v(s.iptc,{instancePath:n+"/iptc",parentData:s,parentDataProperty:"iptc",rootData:o})||(e=e===null?v.errors:e.concat(v.errors),t=e.length)),s.note!==void 0&&(k(
s.note,{instancePath:n+"/note",parentData:s,parentDataProperty:"note",rootData:o})||(e=e===null?k.errors:e.concat(k.errors),t=e.length))}else{let r={instancePath:n,
schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return C.errors=e,t===0}var fe=new RegExp("^[0-9a-f]{64}$","u");function O(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="obje\
ct"&&!Array.isArray(s)){if(s.size===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"required",params:{missingProperty:"size"}};e===null?e=[r]:e.push(
r),t++}if(s.sha256===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"required",params:{missingProperty:"sha256"}};e===null?e=[r]:e.push(r),t++}for(let r in s)
if(!(r==="size"||r==="sha256")){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?
e=[i]:e.push(i),t++}if(s.size!==void 0){let r=s.size;if(!(typeof r=="number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:n+"/size",schemaPath:"#/prope\
rties/size/type",keyword:"type",params:{type:"integer"}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>9007199254740991||isNaN(r)){let i={
instancePath:n+"/size",schemaPath:"#/properties/size/maximum",keyword:"maximum",params:{comparison:"<=",limit:9007199254740991}};e===null?e=[i]:e.push(i),t++}if(r<
0||isNaN(r)){let i={instancePath:n+"/size",schemaPath:"#/properties/size/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}}
if(s.sha256!==void 0){let r=s.sha256;if(typeof r=="string"){if(!fe.test(r)){let i={instancePath:n+"/sha256",schemaPath:"#/properties/sha256/pattern",keyword:"pa\
ttern",params:{pattern:"^[0-9a-f]{64}$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/sha256",schemaPath:"#/properties/sha256/type",keyword:"type",
params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(
r),t++}return O.errors=e,t===0}var ce={type:"object",additionalProperties:!1,properties:{roll:{type:"object",additionalProperties:!1,properties:{blank:{$ref:"#/\
definitions/digest"},flare:{$ref:"#/definitions/digest"},times:{$ref:"#/definitions/digest"},base:{$ref:"#/definitions/digest"},curve:{$ref:"#/definitions/diges\
t"},filtration:{$ref:"#/definitions/digest"},contrast:{$ref:"#/definitions/digest"},toe:{$ref:"#/definitions/digest"},shoulder:{$ref:"#/definitions/digest"}}},scans:{
type:"object",additionalProperties:{type:"object",additionalProperties:!1,properties:{area:{$ref:"#/definitions/digest"},exposure:{$ref:"#/definitions/digest"},
contrast:{$ref:"#/definitions/digest"}}}}}};var he=new RegExp("^[b-df-hj-np-tv-z]{8}(-[b-df-hj-np-tv-z]{4})*$","u");function f(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,
t=0;if(typeof s=="string"){if(!he.test(s)){let r={instancePath:n,schemaPath:"#/pattern",keyword:"pattern",params:{pattern:"^[b-df-hj-np-tv-z]{8}(-[b-df-hj-np-tv\
-z]{4})*$"}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}return f.
errors=e,t===0}function M(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)
if(!(r==="roll"||r==="scans")){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?
e=[i]:e.push(i),t++}if(s.roll!==void 0){let r=s.roll;if(r&&typeof r=="object"&&!Array.isArray(r)){for(let i in r)if(!j.call(ce.properties.roll.properties,i)){let a={
instancePath:n+"/roll",schemaPath:"#/properties/roll/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[a]:e.push(a),
t++}r.blank!==void 0&&(f(r.blank,{instancePath:n+"/roll/blank",parentData:r,parentDataProperty:"blank",rootData:o})||(e=e===null?f.errors:e.concat(f.errors),t=e.
length)),r.flare!==void 0&&(f(r.flare,{instancePath:n+"/roll/flare",parentData:r,parentDataProperty:"flare",rootData:o})||(e=e===null?f.errors:e.concat(f.errors),
t=e.length)),r.times!==void 0&&(f(r.times,{instancePath:n+"/roll/times",parentData:r,parentDataProperty:"times",rootData:o})||(e=e===null?f.errors:e.concat(f.errors),
t=e.length)),r.base!==void 0&&(f(r.base,{instancePath:n+"/roll/base",parentData:r,parentDataProperty:"base",rootData:o})||(e=e===null?f.errors:e.concat(f.errors),
t=e.length)),r.curve!==void 0&&(f(r.curve,{instancePath:n+"/roll/curve",parentData:r,parentDataProperty:"curve",rootData:o})||(e=e===null?f.errors:e.concat(f.errors),
t=e.length)),r.filtration!==void 0&&(f(r.filtration,{instancePath:n+"/roll/filtration",parentData:r,parentDataProperty:"filtration",rootData:o})||(e=e===null?f.
errors:e.concat(f.errors),t=e.length)),r.contrast!==void 0&&(f(r.contrast,{instancePath:n+"/roll/contrast",parentData:r,parentDataProperty:"contrast",rootData:o})||
(e=e===null?f.errors:e.concat(f.errors),t=e.length)),r.toe!==void 0&&(f(r.toe,{instancePath:n+"/roll/toe",parentData:r,parentDataProperty:"toe",rootData:o})||(e=
e===null?f.errors:e.concat(f.errors),t=e.length)),r.shoulder!==void 0&&(f(r.shoulder,{instancePath:n+"/roll/shoulder",parentData:r,parentDataProperty:"shoulder",
rootData:o})||(e=e===null?f.errors:e.concat(f.errors),t=e.length))}else{let i={instancePath:n+"/roll",schemaPath:"#/properties/roll/type",keyword:"type",params:{
type:"object"}};e===null?e=[i]:e.push(i),t++}}if(s.scans!==void 0){let r=s.scans;if(r&&typeof r=="object"&&!Array.isArray(r))for(let i in r){let a=r[i];if(a&&typeof a==
"object"&&!Array.isArray(a)){for(let m in a)if(!(m==="area"||m==="exposure"||m==="contrast")){let p={instancePath:n+"/scans/"+i.replace(/~/g,"~0").replace(/\//g,
"~1"),schemaPath:"#/properties/scans/additionalProperties/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:m}};e===null?e=[p]:e.push(
p),t++}a.area!==void 0&&(f(a.area,{instancePath:n+"/scans/"+i.replace(/~/g,"~0").replace(/\//g,"~1")+"/area",parentData:a,parentDataProperty:"area",rootData:o})||
(e=e===null?f.errors:e.concat(f.errors),t=e.length)),a.exposure!==void 0&&(f(a.exposure,{instancePath:n+"/scans/"+i.replace(/~/g,"~0").replace(/\//g,"~1")+"/exp\
osure",parentData:a,parentDataProperty:"exposure",rootData:o})||(e=e===null?f.errors:e.concat(f.errors),t=e.length)),a.contrast!==void 0&&(f(a.contrast,{instancePath:n+
"/scans/"+i.replace(/~/g,"~0").replace(/\//g,"~1")+"/contrast",parentData:a,parentDataProperty:"contrast",rootData:o})||(e=e===null?f.errors:e.concat(f.errors),
t=e.length))}else{let m={instancePath:n+"/scans/"+i.replace(/~/g,"~0").replace(/\//g,"~1"),schemaPath:"#/properties/scans/additionalProperties/type",keyword:"ty\
pe",params:{type:"object"}};e===null?e=[m]:e.push(m),t++}}else{let i={instancePath:n+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"\
object"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return M.
errors=e,t===0}var S=new RegExp("^[0-9]{1,3}[A-Z]?$","u");function T(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s&&
typeof s=="object"&&!Array.isArray(s)){if(s.version===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"required",params:{missingProperty:"version"}};
e===null?e=[r]:e.push(r),t++}for(let r in s)if(!j.call(X.properties,r)){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"additionalProperties",
params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.version!==void 0&&(w(s.version,{instancePath:n+"/version",parentData:s,parentDataProperty:"vers\
ion",rootData:o})||(e=e===null?w.errors:e.concat(w.errors),t=e.length)),s.title!==void 0){let r=s.title;if(typeof r=="string"){if(y(r)>200){let i={instancePath:n+
"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/title",schemaPath:"\
#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.stock!==void 0){let r=s.stock;if(typeof r=="string"){if(y(r)<
1){let i={instancePath:n+"/stock",schemaPath:"#/properties/stock/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+
"/stock",schemaPath:"#/properties/stock/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.film!==void 0&&(x(s.film,{instancePath:n+
"/film",parentData:s,parentDataProperty:"film",rootData:o})||(e=e===null?x.errors:e.concat(x.errors),t=e.length)),s.format!==void 0&&(b(s.format,{instancePath:n+
"/format",parentData:s,parentDataProperty:"format",rootData:o})||(e=e===null?b.errors:e.concat(b.errors),t=e.length)),s.exposed!==void 0&&(N(s.exposed,{instancePath:n+
"/exposed",parentData:s,parentDataProperty:"exposed",rootData:o})||(e=e===null?N.errors:e.concat(N.errors),t=e.length)),s.iptc!==void 0&&(v(s.iptc,{instancePath:n+
"/iptc",parentData:s,parentDataProperty:"iptc",rootData:o})||(e=e===null?v.errors:e.concat(v.errors),t=e.length)),s.scans!==void 0){let r=s.scans;if(typeof r=="\
string"){if(y(r)<1){let i={instancePath:n+"/scans",schemaPath:"#/properties/scans/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:n+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.light!==void 0&&(I(
s.light,{instancePath:n+"/light",parentData:s,parentDataProperty:"light",rootData:o})||(e=e===null?I.errors:e.concat(I.errors),t=e.length)),s.negative!==void 0&&
(P(s.negative,{instancePath:n+"/negative",parentData:s,parentDataProperty:"negative",rootData:o})||(e=e===null?P.errors:e.concat(P.errors),t=e.length)),s.positive!==
void 0&&(g(s.positive,{instancePath:n+"/positive",parentData:s,parentDataProperty:"positive",rootData:o})||(e=e===null?g.errors:e.concat(g.errors),t=e.length)),
s.output!==void 0&&(A(s.output,{instancePath:n+"/output",parentData:s,parentDataProperty:"output",rootData:o})||(e=e===null?A.errors:e.concat(A.errors),t=e.length)),
s.frames!==void 0){let r=s.frames;if(r&&typeof r=="object"&&!Array.isArray(r)){for(let i in r)if(!S.test(i)){let a={instancePath:n+"/frames",schemaPath:"#/prope\
rties/frames/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[a]:e.push(a),t++}for(let i in r)S.test(i)&&(C(r[i],
{instancePath:n+"/frames/"+i.replace(/~/g,"~0").replace(/\//g,"~1"),parentData:r,parentDataProperty:i,rootData:o})||(e=e===null?C.errors:e.concat(C.errors),t=e.
length))}else{let i={instancePath:n+"/frames",schemaPath:"#/properties/frames/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}if(s.note!==
void 0&&(k(s.note,{instancePath:n+"/note",parentData:s,parentDataProperty:"note",rootData:o})||(e=e===null?k.errors:e.concat(k.errors),t=e.length)),s.fingerprints!==
void 0){let r=s.fingerprints;if(r&&typeof r=="object"&&!Array.isArray(r))for(let i in r)O(r[i],{instancePath:n+"/fingerprints/"+i.replace(/~/g,"~0").replace(/\//g,
"~1"),parentData:r,parentDataProperty:i,rootData:o})||(e=e===null?O.errors:e.concat(O.errors),t=e.length);else{let i={instancePath:n+"/fingerprints",schemaPath:"\
#/properties/fingerprints/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}s.automatic!==void 0&&(M(s.automatic,{instancePath:n+"/auto\
matic",parentData:s,parentDataProperty:"automatic",rootData:o})||(e=e===null?M.errors:e.concat(M.errors),t=e.length))}else{let r={instancePath:n,schemaPath:"#/t\
ype",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return T.errors=e,t===0}var ke=U,ye={type:"object",additionalProperties:!1,required:["v\
ersion"],properties:{version:{$ref:"#/definitions/version"},title:{type:"string",maxLength:200},film:{$ref:"#/definitions/film"},iso:{type:"number",minimum:.1,maximum:1e5},
format:{$ref:"#/definitions/format"},process:{type:"string"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/positive"},output:{$ref:"#/d\
efinitions/outputs"},note:{$ref:"#/definitions/note"}}};function U(s,{instancePath:n="",parentData:h,parentDataProperty:c,rootData:o=s}={}){let e=null,t=0;if(s&&
typeof s=="object"&&!Array.isArray(s)){if(s.version===void 0){let r={instancePath:n,schemaPath:"#/required",keyword:"required",params:{missingProperty:"version"}};
e===null?e=[r]:e.push(r),t++}for(let r in s)if(!j.call(ye.properties,r)){let i={instancePath:n,schemaPath:"#/additionalProperties",keyword:"additionalProperties",
params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.version!==void 0&&(w(s.version,{instancePath:n+"/version",parentData:s,parentDataProperty:"vers\
ion",rootData:o})||(e=e===null?w.errors:e.concat(w.errors),t=e.length)),s.title!==void 0){let r=s.title;if(typeof r=="string"){if(y(r)>200){let i={instancePath:n+
"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:n+"/title",schemaPath:"\
#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.film!==void 0&&(x(s.film,{instancePath:n+"/film",parentData:s,
parentDataProperty:"film",rootData:o})||(e=e===null?x.errors:e.concat(x.errors),t=e.length)),s.iso!==void 0){let r=s.iso;if(typeof r=="number"&&isFinite(r)){if(r>
1e5||isNaN(r)){let i={instancePath:n+"/iso",schemaPath:"#/properties/iso/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e5}};e===null?e=[i]:e.push(i),
t++}if(r<.1||isNaN(r)){let i={instancePath:n+"/iso",schemaPath:"#/properties/iso/minimum",keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[i]:e.
push(i),t++}}else{let i={instancePath:n+"/iso",schemaPath:"#/properties/iso/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.format!==
void 0&&(b(s.format,{instancePath:n+"/format",parentData:s,parentDataProperty:"format",rootData:o})||(e=e===null?b.errors:e.concat(b.errors),t=e.length)),s.process!==
void 0&&typeof s.process!="string"){let r={instancePath:n+"/process",schemaPath:"#/properties/process/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:
e.push(r),t++}s.negative!==void 0&&(P(s.negative,{instancePath:n+"/negative",parentData:s,parentDataProperty:"negative",rootData:o})||(e=e===null?P.errors:e.concat(
P.errors),t=e.length)),s.positive!==void 0&&(g(s.positive,{instancePath:n+"/positive",parentData:s,parentDataProperty:"positive",rootData:o})||(e=e===null?g.errors:
e.concat(g.errors),t=e.length)),s.output!==void 0&&(A(s.output,{instancePath:n+"/output",parentData:s,parentDataProperty:"output",rootData:o})||(e=e===null?A.errors:
e.concat(A.errors),t=e.length)),s.note!==void 0&&(k(s.note,{instancePath:n+"/note",parentData:s,parentDataProperty:"note",rootData:o})||(e=e===null?k.errors:e.concat(
k.errors),t=e.length))}else{let r={instancePath:n,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return U.errors=e,t===
0}export{ge as roll,ke as stock};
