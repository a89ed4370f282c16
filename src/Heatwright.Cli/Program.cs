// SPDX-License-Identifier: Apache-2.0
return 0;
