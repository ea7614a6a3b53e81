import type { SetList } from '@gapline/core/kit/set-list.ts';
import type { KitListRequest, SetListSummary, StockBody, StockImport } from '../../../server/src/contract.ts';
import { get, post, postForFile } from '../wire/api.ts';

export const getSetLists = (): Promise<readonly SetListSummary[]> => get('/api/set-lists');
export const getSetList = (id: string): Promise<SetList> => get(`/api/set-lists/${encodeURIComponent(id)}`);
export const sendSetList = (list: unknown): Promise<SetListSummary> => post('/api/set-lists', list);
export const getStock = (): Promise<StockBody | null> => get('/api/stock');
export const sendStock = (stock: StockImport): Promise<StockBody> => post('/api/stock', stock);

/** The kit list on paper or as a table, made by the server from the saved case. */
export const writeKitList = (caseId: string, kind: 'pdf' | 'csv', wish: KitListRequest): Promise<Blob> =>
  postForFile(`/api/cases/${encodeURIComponent(caseId)}/kit-list.${kind}`, wish);
